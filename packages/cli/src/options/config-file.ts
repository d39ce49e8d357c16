import { readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { usageError } from '../exit.js';
import { inPlainWords, systemCode } from '../files/trouble.js';

export const CONFIG_FILE = 'handline.config.json';

export type Settings = Readonly<Record<string, unknown>>;

/** The file of settings in this folder, or in the nearest one above that has one. */
export async function nearestConfig(): Promise<string | undefined> {
  for (let folder = resolve('.'); ; folder = dirname(folder)) {
    const file = join(folder, CONFIG_FILE);
    try {
      await readFile(file);
      return file;
    } catch (error) {
      if (systemCode(error) !== 'ENOENT') throw usageError(`${file}: ${inPlainWords(error)}`);
    }
    if (dirname(folder) === folder) return undefined;
  }
}

/** @throws CliError usage, where the file is missing or holds no object */
export async function readSettings(file: string): Promise<Settings> {
  let content: string;
  try {
    content = await readFile(file, 'utf8');
  } catch (error) {
    throw usageError(`${file}: ${inPlainWords(error)}`);
  }
  let settings: unknown;
  try {
    settings = JSON.parse(content);
  } catch {
    throw usageError(`${file}: line ${faultyLine(content)}: is not valid JSON`);
  }
  return objectAt(settings, file);
}

/** The first line that no JSON goes on with, counted from 1; V8 gives the place of some faults only. */
function faultyLine(content: string): number {
  const lines = content.trimEnd().split('\n');
  const found = lines.findIndex((_, at) => !isBeginning(`${lines.slice(0, at + 1).join('\n')}\n`));
  return found < 0 ? lines.length : found + 1;
}

/** Whether whole lines are JSON, or are at fault only because they end. */
function isBeginning(lines: string): boolean {
  try {
    JSON.parse(lines);
    return true;
  } catch (error) {
    const { message } = error as SyntaxError;
    return /end of JSON/.test(message) || Number(/at position (\d+)/.exec(message)?.[1]) === lines.length;
  }
}

export function objectAt(value: unknown, where: string): Settings {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Settings;
  throw usageError(`${where} does not hold an object; write such as {"span": "9th"}`);
}
