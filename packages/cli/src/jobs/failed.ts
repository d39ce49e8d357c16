import { HandlineError } from '@handline/core';
import { CliError, Exit, type ExitCode } from '../exit.js';
import type { Destination } from '../files/jobs.js';
import { inPlainWords } from '../files/trouble.js';
import type { Outcome } from '../outcome.js';
import { oneLine } from '../output/line.js';

/** What became of a file that failed, as plain data. */
export interface Failure extends Pick<Outcome, 'status' | 'error'> {
  readonly exit: ExitCode;
}

export function failed(error: unknown, file: string, destination: Destination): Failure {
  if (error instanceof HandlineError) {
    const { code, place, warning } = error;
    const named = place.file === undefined ? `${file}: ${error.message}` : error.message;
    return {
      status: 'refused',
      exit: code === 'OPTION' ? Exit.usage : Exit.refused,
      error: { code, message: oneLine(asTyped(named)), place, ...(warning && { warning: warning.code }) },
    };
  }
  if (error instanceof CliError) {
    const status = error.exit === Exit.unwritten ? 'unwritten' : 'refused';
    const name =
      status === 'refused' ? file : destination.kind === 'stdout' ? 'standard output' : destination.path;
    return { status, exit: error.exit, error: { message: oneLine(`${name}: ${error.message}`) } };
  }
  const message = `${file}: Handline failed (${inPlainWords(error)}); this is a defect, please report it`;
  return { status: 'defect', exit: Exit.defect, error: { message: oneLine(message) } };
}

/** Core names its own options; here they are typed as `--max-bytes`. */
function asTyped(message: string): string {
  return message.replace(/\blimits\.max([A-Z][a-z]+)/g, (_, name: string) => `--max-${name.toLowerCase()}`);
}
