import { readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { usageError } from '../exit.js';
import { parsedJson } from '../files/json.js';
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
  return objectAt(parsedJson(content, file), file);
}

export function objectAt(value: unknown, where: string): Settings {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Settings;
  throw usageError(`${where} does not hold an object; write such as {"span": "9th"}`);
}
