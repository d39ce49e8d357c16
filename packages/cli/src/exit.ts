/** Exit codes, listed in the help text and in the README. A run over several files ends with the most serious one met. */
export const Exit = {
  /** Every file was done. */
  ok: 0,
  /** A file was refused or could not be read; nothing was written for it. */
  refused: 1,
  /** The command line is wrong; no file was read or written. */
  usage: 2,
  /** A result could not be written; what was there before is whole. */
  unwritten: 3,
  /** A defect of Handline; nothing was written for that file. */
  defect: 4,
  /** The result is written, but marks were left in it, or digits of the user's are missing. */
  left: 5,
  /** `review` has found what `--fail-on` names. */
  found: 6,
  /** `--check`: a result would differ from what is there. */
  differs: 7,
  /** Nobody reads the result: as if ended by SIGPIPE, which Node.js does not let through. */
  unread: 141,
} as const;

export type ExitCode = (typeof Exit)[keyof typeof Exit];

const BY_GRAVITY: readonly ExitCode[] = [
  Exit.ok,
  Exit.found,
  Exit.differs,
  Exit.left,
  Exit.refused,
  Exit.usage,
  Exit.unwritten,
  Exit.defect,
  Exit.unread,
];

export function graver(a: ExitCode, b: ExitCode): ExitCode {
  return BY_GRAVITY.indexOf(a) > BY_GRAVITY.indexOf(b) ? a : b;
}

/** A failure of the shell around the library: command line, files, pipes. One line for people. */
export class CliError extends Error {
  readonly exit: ExitCode;

  constructor(exit: ExitCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'CliError';
    this.exit = exit;
  }
}

export function usageError(message: string): CliError {
  return new CliError(Exit.usage, message);
}
