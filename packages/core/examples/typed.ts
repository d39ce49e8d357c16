// The types at work, under the strictest settings.
import {
  type Annotated,
  type AnnotateOptions,
  type AsyncOptions,
  annotate,
  annotateAsync,
  clear,
  HandlineError,
  type Report,
} from '@handline/core';

const options: AnnotateOptions = { span: { right: '9th', left: 190 }, layers: ['depth'], nextBest: true };

/** Text comes back as text. */
export function markText(text: string): string {
  return annotate(text, options).output;
}

/** Bytes come back as a plain array, from an ArrayBuffer as well. */
export function markBytes(bytes: Uint8Array | ArrayBuffer): Uint8Array<ArrayBuffer> {
  return clear(annotate(bytes, options).output).output;
}

/** The fingers of every hand, by part. */
export function fingersOf({ lines }: Report): Map<string, (number | null)[]> {
  return new Map(
    lines.map(({ part, hand, slices }) => [`${part} ${hand}`, slices.flatMap(({ fingers }) => fingers)]),
  );
}

export function inWorker(bytes: ArrayBuffer, own: AsyncOptions): Promise<Annotated<ArrayBuffer>> {
  return annotateAsync(bytes, options, own);
}

export function codeOf(error: unknown): string | undefined {
  return error instanceof HandlineError ? error.code : undefined;
}
