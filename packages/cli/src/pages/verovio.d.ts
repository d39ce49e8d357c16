declare module 'verovio/wasm' {
  export default function createModule(): Promise<object>;
}

declare module 'verovio/esm' {
  export const LOG_OFF: number;
  export function enableLog(level: number, module: object): void;
  export class VerovioToolkit {
    constructor(module: object);
    getVersion(): string;
    setOptions(options: Readonly<Record<string, unknown>>): void;
    loadData(data: string): number | boolean;
    select(range: { readonly measureRange?: string }): boolean;
    redoLayout(): void;
    renderToTimemap(options: Readonly<Record<string, unknown>>): { qstamp: number; on?: string[] }[];
    getMIDIValuesForElement(id: string): { pitch: number };
    getMEI(options: Readonly<Record<string, unknown>>): string;
    getPageCount(): number;
    renderToSVG(page: number, xmlDeclaration?: boolean): string;
  }
}
