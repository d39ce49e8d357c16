import type { Place, Report, Review, Warning, WarningCode } from '@handline/core';

/** What the library found in one input. */
export interface Findings {
  readonly warnings: readonly Warning[];
  readonly report?: Report;
  /** Of the digits that a score has. */
  readonly review?: Review;
}

/** What the library made of one input. */
export interface Result extends Findings {
  readonly output: Uint8Array;
}

/** What became of one input. */
export interface Outcome {
  readonly input: string;
  /** Where the result lies; absent where there is none. */
  readonly output?: string;
  readonly backup?: string;
  /**
   * `unchanged`: the result equals the file in its place, which was not touched. `differs`: it does not, and was not
   * written (`--check`). `done`: an earlier run had done it (`--skip-done`).
   */
  readonly status: 'written' | 'unchanged' | 'differs' | 'done' | 'refused' | 'unwritten' | 'defect';
  /** What the result is beside the file in its place, where it was only compared (`--check`). */
  readonly compared?: 'same' | 'other' | 'missing';
  /** False where the result equals the input byte for byte. */
  readonly changed?: boolean;
  readonly result?: Findings;
  readonly error?: {
    readonly code?: string;
    readonly message: string;
    readonly place?: Place;
    /** The warning that `--strict` refused. */
    readonly warning?: WarningCode;
  };
}

/** What becomes of a run, file by file: no more of it is kept than its text needs. */
export interface Tally {
  add(outcome: Outcome): void;
  /** For people, on one screen; empty where there is nothing to say. */
  text(): string;
}

export function isResult({ status }: Outcome): boolean {
  return status === 'written' || status === 'unchanged' || status === 'differs';
}
