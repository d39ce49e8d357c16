import { readFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { systemCode } from './trouble.js';

/** Names of scores, in whatever case. */
const SCORES = '*.{musicxml,xml,mxl}';
export const IGNORE_FILE = '.handlineignore';

/**
 * The scores in a folder and its subfolders, sorted by name. Hidden files and folders, what `.handlineignore` in the
 * folder names (in the syntax of .gitignore) and the folder `without` are passed over; links are not followed.
 */
export async function scoresIn(folder: string, without: string | undefined): Promise<string[]> {
  const { glob } = await import('tinyglobby');
  const found = await glob([`**/${SCORES}`], {
    cwd: folder,
    caseSensitiveMatch: false,
    followSymbolicLinks: false,
    expandDirectories: false,
  });
  const kept = found.filter(await unignored(folder)).filter(outside(folder, without));
  return kept.sort(byName).map((name) => join(folder, name));
}

/** The files that a pattern such as `edition/**\/*.mxl` matches, sorted by name; not those in the folder `without`. */
export async function matching(pattern: string, without: string | undefined): Promise<string[]> {
  const { glob } = await import('tinyglobby');
  const found = await glob([pattern], { expandDirectories: false, followSymbolicLinks: false });
  return found.filter(outside('.', without)).sort(byName);
}

/** The folder that every match of a pattern lies in: what stands before the first special sign. */
export function folderOf(pattern: string): string {
  const fixed = pattern.split('/').slice(0, -1);
  const special = fixed.findIndex(isPattern);
  const folder = (special < 0 ? fixed : fixed.slice(0, special)).join('/');
  return folder === '' ? (pattern.startsWith('/') ? '/' : '.') : folder;
}

export function isPattern(text: string): boolean {
  return /[*?[{]/.test(text);
}

/** Not by locale: the same order on every machine. */
function byName(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

async function unignored(folder: string): Promise<(name: string) => boolean> {
  let rules: string;
  try {
    rules = await readFile(join(folder, IGNORE_FILE), 'utf8');
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return () => true;
    throw error;
  }
  const { default: ignore } = await import('ignore');
  return ignore().add(rules).createFilter();
}

/** Results of an earlier run that lie within the folder are no inputs of the next. */
function outside(folder: string, without: string | undefined): (name: string) => boolean {
  if (without === undefined) return () => true;
  const way = relative(folder, without);
  if (way === '' || way === '..' || way.startsWith(`..${sep}`)) return () => true;
  const prefix = `${way.split(sep).join('/')}/`;
  return (name) => !name.startsWith(prefix);
}
