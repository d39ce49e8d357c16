import { usageError } from '../exit.js';

/**
 * @param where names the content in the message
 * @param advice what to give instead, at the end of the message
 * @throws CliError usage, with line and column, where it is no JSON
 */
export function parsedJson(content: string, where: string, advice = ''): unknown {
  // Editors on Windows begin files with a byte-order mark.
  const text = content.replace(/^\ufeff/, '');
  try {
    return JSON.parse(text);
  } catch {
    const { line, column } = faultIn(text);
    throw usageError(`${where}: line ${line}, column ${column}: is not valid JSON${advice}`);
  }
}

/** The first sign with which no JSON goes on, or the end where it ends too early; V8 gives the place of some faults only. */
function faultIn(text: string): { readonly line: number; readonly column: number } {
  const whole = text.trimEnd();
  // What begins JSON does so at every length, so that the fault is found by halves.
  let [begins, fails] = [0, whole.length + 1];
  while (fails - begins > 1) {
    const length = Math.floor((begins + fails) / 2);
    if (isBeginning(whole.slice(0, length))) begins = length;
    else fails = length;
  }
  const lines = whole.slice(0, begins).split('\n');
  return { line: lines.length, column: lines.at(-1)!.length + 1 };
}

/** Whether a text is JSON, or is at fault only because it ends. */
function isBeginning(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch (error) {
    const { message } = error as SyntaxError;
    return /end of JSON/.test(message) || Number(/at position (\d+)/.exec(message)?.[1]) === text.length;
  }
}
