import { readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { usageError } from '../exit.js';
import { inPlainWords, systemCode } from '../files/trouble.js';
import { type Arguments, text } from './output-options.js';

export const CONFIG_FILE = 'handline.config.json';

/** Options of `mark` that a file of settings may hold. */
export const TEXTS = [
  'hands',
  'part',
  'staff',
  'span',
  'digits',
  'existing',
  'by',
  'alternatives',
  'layers',
  'density',
  'language',
  'wording',
] as const;
export const FLAGS = ['share-hands', 'legend', 'strict'] as const;

type Settings = Readonly<Record<string, unknown>>;

/**
 * The command line, completed by the file of settings: what is typed comes first, then what the file says of the
 * student of `--for`, then what it says of everybody.
 *
 * @throws CliError usage, where the file or the student's entry is missing or not understood
 */
export async function configured(typed: Arguments): Promise<Arguments> {
  const file = text(typed, 'config') ?? (await nearestConfig());
  const student = text(typed, 'for');
  if (file === undefined) {
    if (student === undefined) return typed;
    throw usageError(`--for ${student} needs ${CONFIG_FILE}, here or in a folder above; there is none`);
  }
  const { for: students = {}, $schema: _, ...common } = await readSettings(file);
  const everybody = asTyped(common, file);
  const own = student === undefined ? {} : entryFor(student, students, file);
  return { ...everybody, ...asTyped(own, file), ...typed };
}

async function nearestConfig(): Promise<string | undefined> {
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

async function readSettings(file: string): Promise<Settings> {
  let settings: unknown;
  try {
    settings = JSON.parse(await readFile(file, 'utf8'));
  } catch (error) {
    throw usageError(`${file}: ${error instanceof SyntaxError ? 'is not valid JSON' : inPlainWords(error)}`);
  }
  return objectAt(settings, file);
}

function entryFor(student: string, students: unknown, file: string): Settings {
  const entries = objectAt(students, `${file}: for`);
  if (Object.hasOwn(entries, student)) return objectAt(entries[student], `${file}: for ${student}`);
  const known = Object.keys(entries).join(', ');
  throw usageError(`--for ${student}: ${file} knows ${known === '' ? 'nobody' : known}`);
}

function objectAt(value: unknown, where: string): Settings {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Settings;
  throw usageError(`${where} does not hold an object; write such as {"span": "9th"}`);
}

/** Settings as the command line would have them. */
function asTyped(settings: Settings, file: string): Record<string, unknown> {
  const typed: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(settings)) {
    const where = `${file}: ${name}`;
    if ((FLAGS as readonly string[]).includes(name)) {
      if (typeof value !== 'boolean') throw usageError(`${where} is true or false`);
      typed[name] = value;
    } else if ((TEXTS as readonly string[]).includes(name)) {
      const written = asText(value, where);
      // Beside the file that names it, wherever the command is called.
      typed[name] = name === 'wording' ? resolve(dirname(file), written) : written;
    } else {
      throw usageError(`${where} is not a setting; there are ${[...TEXTS, ...FLAGS].join(', ')}, and for`);
    }
  }
  return typed;
}

/** `["depth", "carry"]` is `depth,carry`, `{"right": [1, 2]}` is `right=1+2`. */
function asText(value: unknown, where: string, between = ','): string {
  if (typeof value === 'string' || typeof value === 'number') return String(value);
  if (Array.isArray(value)) return value.map((item) => asText(item, where)).join(between);
  if (typeof value === 'object' && value !== null) {
    const hands = Object.entries(value).map(([hand, own]) => `${hand}=${asText(own, where, '+')}`);
    return hands.join(',');
  }
  throw usageError(`${where} is neither a text nor a number`);
}
