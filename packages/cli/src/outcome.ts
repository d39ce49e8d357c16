import type { Place, Report, Warning, WarningCode } from '@handline/core';

/** What the library found in one input. */
export interface Findings {
  readonly warnings: readonly Warning[];
  readonly report?: Report;
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
  /** `unchanged`: in place, and the result equals the file, which was not touched. */
  readonly status: 'written' | 'unchanged' | 'refused' | 'unwritten' | 'defect';
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
