import { dirname, resolve } from 'node:path';
import { annotate, HandlineError } from '@handline/core';
import { CliError, usageError } from '../exit.js';
import { asTyped } from '../mistakes/core-options.js';
import { didYouMean } from '../mistakes/nearest.js';
import { type Arguments, text } from './arguments.js';
import { CONFIG_FILE, nearestConfig, objectAt, readSettings, type Settings } from './config-file.js';
import { markOptions } from './mark-options.js';

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
  const everybody = settingsIn(common, file);
  refuseBad(everybody, file);
  for (const name of Object.keys(objectAt(students, `${file}: for`))) {
    // A wrong entry is told of by the first run, not by that for its student; their words may lie elsewhere.
    const { wording: _, ...own } = settingsIn(entryFor(name, students, file), file, name);
    refuseBad(own, `${file}: for ${name}`);
  }
  if (student === undefined) return { ...everybody, ...typed };
  const own = settingsIn(entryFor(student, students, file), file, student);
  refuseBad(own, `${file}: for ${student}`);
  return { ...everybody, ...own, ...typed };
}

/** Refuses values that no score can be marked with: core asks for them before it finds that this one is empty. */
function refuseBad(settings: Record<string, unknown>, where: string): void {
  try {
    annotate('', markOptions({ ...settings, _: [] }));
  } catch (error) {
    if (error instanceof HandlineError && error.code !== 'OPTION') return;
    if (error instanceof HandlineError || error instanceof CliError)
      throw usageError(
        `${where}: ${error instanceof HandlineError ? asTyped(error, '') : error.message.replace(/^--/, '')}`,
      );
    throw error;
  }
}

function entryFor(student: string, students: unknown, file: string): Settings {
  const entries = objectAt(students, `${file}: for`);
  if (Object.hasOwn(entries, student)) return objectAt(entries[student], `${file}: for ${student}`);
  const known = Object.keys(entries).join(', ');
  throw usageError(
    `--for ${student}: ${file} ${known === '' ? 'has settings for nobody' : `knows ${known}`}${didYouMean(student, Object.keys(entries))}`,
  );
}

/** Settings as the command line would have them. */
function settingsIn(settings: Settings, file: string, student?: string): Record<string, unknown> {
  const typed: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(settings)) {
    const where = `${file}: ${student === undefined ? '' : `for ${student}: `}${name}`;
    if ((FLAGS as readonly string[]).includes(name)) {
      if (typeof value !== 'boolean') throw usageError(`${where} is true or false`);
      typed[name] = value;
    } else if ((TEXTS as readonly string[]).includes(name)) {
      const written = asText(value, where);
      // Beside the file that names it, wherever the command is called.
      typed[name] = name === 'wording' ? resolve(dirname(file), written) : written;
    } else {
      const near = didYouMean(
        name,
        student === undefined ? [...TEXTS, ...FLAGS, 'for'] : [...TEXTS, ...FLAGS],
      );
      throw usageError(
        `${where} is not a setting; there are ${[...TEXTS, ...FLAGS].join(', ')}, and for${near}`,
      );
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
