import { type AnnotateOptions, annotateAsync, type Progress, type Report } from '@handline/core';
import { asList, type Digits } from './state.js';
import { call } from './workers/calls.js';
import type { Drawing } from './workers/drawing.js';
import type { Marking } from './workers/marking.js';

/** A score as it was opened. */
export interface Score {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** What the user can choose. */
export type Settings = Required<Pick<AnnotateOptions, 'layers' | 'density' | 'language'>> & {
  readonly span: { readonly right: string; readonly left: string };
};

/** What became of a score. */
export interface Marked {
  /** The score with the user's digits. */
  readonly given: Uint8Array<ArrayBuffer>;
  readonly output: Uint8Array<ArrayBuffer>;
  readonly report: Report;
}

/** The two workers: one marks and may be ended at any time, the other draws and explains. */
export class Session {
  readonly #markingScript: string;
  readonly #drawing: Worker;
  #marking: Worker;

  /** @param scripts addresses of the workers' scripts */
  constructor(scripts: { readonly marking: string; readonly drawing: string }) {
    this.#markingScript = scripts.marking;
    this.#marking = new Worker(scripts.marking);
    this.#drawing = new Worker(scripts.drawing);
  }

  /** Marks a score with some digits of the user's; an abort ends the work. */
  async mark(
    { name, bytes }: Score,
    digits: { readonly digits: Digits; readonly offsets: ReadonlyMap<string, number> },
    settings: Settings,
    told: { readonly signal: AbortSignal; readonly onProgress: (progress: Progress) => void },
  ): Promise<Marked> {
    const { signal } = told;
    const worker = this.#marking;
    const renew = () => {
      worker.terminate();
      this.#marking = new Worker(this.#markingScript);
    };
    signal.addEventListener('abort', renew, { once: true });
    try {
      const list = asList(digits.digits, digits.offsets);
      const given =
        list.length === 0
          ? bytes
          : await aborted(signal, call<Marking, 'give'>(worker, 'give', { bytes, digits: list, file: name }));
      const made = await annotateAsync(given, optionsOf(name, settings), { worker, ...told });
      return { given, ...made };
    } finally {
      signal.removeEventListener('abort', renew);
    }
  }

  /** For practice, what follows digits of the user's at a note: code that has run before is quicker. */
  async rehearse(score: Score, offset: number, settings: Settings, isOver: () => boolean): Promise<void> {
    const { name: file, bytes } = score;
    const options = optionsOf(file, settings);
    for (const finger of [1, 2, 3] as const) {
      if (isOver()) return;
      const ask = { bytes, digits: [{ offset, finger }], file, options };
      await call<Marking, 'rehearse'>(this.#marking, 'rehearse', ask);
    }
  }

  /** Asks the worker that draws. */
  draw<N extends keyof Drawing & string>(name: N, ask: Parameters<Drawing[N]>[0]) {
    return call<Drawing, N>(this.#drawing, name, ask);
  }
}

/** As the command line has them for the same choices. */
export function optionsOf(file: string, { span, layers, density, language }: Settings): AnnotateOptions {
  return { file, span, layers, density, language };
}

function aborted<T>(signal: AbortSignal, work: Promise<T>): Promise<T> {
  return new Promise((done, fail) => {
    if (signal.aborted) fail(signal.reason);
    signal.addEventListener('abort', () => fail(signal.reason), { once: true });
    work.then(done, fail);
  });
}
