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

/** The first sign that no JSON goes on with, counted from 1; V8 gives the place of some faults only. */
function faultIn(text: string): { readonly line: number; readonly column: number } {
  const lines = text.trimEnd().split('\n');
  const ends = lines.map((_, at) => `${lines.slice(0, at + 1).join('\n')}\n`);
  const found = ends.findIndex((beginning) => !isBeginning(beginning));
  // It ends too early.
  if (found < 0) return { line: lines.length, column: lines.at(-1)!.length + 1 };
  const before = ends[found - 1] ?? '';
  let column = 1;
  while (column <= lines[found]!.length && isBeginning(before + lines[found]!.slice(0, column))) column++;
  return { line: found + 1, column };
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
