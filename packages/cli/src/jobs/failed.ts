import { HandlineError } from '@handline/core';
import { CliError, Exit, type ExitCode } from '../exit.js';
import type { Destination } from '../files/jobs.js';
import { inPlainWords } from '../files/trouble.js';
import { asTyped } from '../mistakes/core-options.js';
import type { Outcome } from '../outcome.js';
import { oneLine } from '../output/line.js';

/** What became of a file that failed, as plain data. */
export interface Failure extends Pick<Outcome, 'status' | 'error'> {
  readonly exit: ExitCode;
}

/** @param file undefined where the result is made from nothing */
export function failed(error: unknown, file: string | undefined, destination: Destination): Failure {
  if (error instanceof HandlineError) {
    const { code, place, warning } = error;
    const told = asTyped(error);
    const named = place.file === undefined && file !== undefined ? `${file}: ${told}` : told;
    return {
      status: 'refused',
      exit: code === 'OPTION' ? Exit.usage : Exit.refused,
      error: { code, message: oneLine(named), place, ...(warning && { warning: warning.code }) },
    };
  }
  if (error instanceof CliError) {
    const status = error.exit === Exit.unwritten ? 'unwritten' : 'refused';
    const result = destination.kind === 'stdout' ? 'standard output' : destination.path;
    const name = status === 'refused' && file !== undefined ? file : result;
    return { status, exit: error.exit, error: { message: oneLine(`${name}: ${error.message}`) } };
  }
  const message = `${file === undefined ? '' : `${file}: `}Handline failed (${inPlainWords(error)}); this is a defect, please report it`;
  return { status: 'defect', exit: Exit.defect, error: { message: oneLine(message) } };
}
