import { readFile } from 'node:fs/promises';
import { basename, join, relative, sep } from 'node:path';

/** Names of scores, in whatever case. */
const SCORES = '*.{musicxml,xml,mxl}';
export const IGNORE_FILE = '.handlineignore';

/**
 * The scores in a folder and its subfolders, sorted by name. Hidden files and folders, what a `.handlineignore` in the
 * folder or a subfolder names (as .gitignore does) and the folder `without` are passed over; links are not followed.
 */
export async function scoresIn(folder: string, without: string | undefined): Promise<string[]> {
  const { glob } = await import('tinyglobby');
  const found = await glob([`**/${SCORES}`, `**/${IGNORE_FILE}`], {
    cwd: folder,
    caseSensitiveMatch: false,
    followSymbolicLinks: false,
    expandDirectories: false,
  });
  const isIgnoreFile = (name: string) => basename(name) === IGNORE_FILE;
  const scores = found.filter((name) => !isIgnoreFile(name)).filter(outside(folder, without));
  const kept = scores.filter(await unignored(folder, found.filter(isIgnoreFile)));
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

/**
 * Which names below a folder no `.handlineignore` names. One in a subfolder holds for what lies in it and goes before those
 * further up, unless these name the subfolder itself.
 */
async function unignored(folder: string, files: readonly string[]): Promise<(name: string) => boolean> {
  if (files.length === 0) return () => true;
  const { default: ignore } = await import('ignore');
  const rules: { readonly within: string; readonly own: ReturnType<typeof ignore> }[] = [];
  const isKept = (name: string): boolean => {
    let kept = true;
    for (const { within, own } of rules) {
      if (!name.startsWith(within)) continue;
      const { ignored, unignored } = own.test(name.slice(within.length));
      if (ignored || unignored) kept = unignored;
    }
    return kept;
  };
  // The folder's own before those of its subfolders.
  for (const within of files.map((file) => file.slice(0, -IGNORE_FILE.length)).sort(byName)) {
    if (within !== '' && !isKept(within)) continue;
    rules.push({ within, own: ignore().add(await readFile(join(folder, within, IGNORE_FILE), 'utf8')) });
  }
  return isKept;
}

/** Results of an earlier run that lie within the folder are no inputs of the next. */
function outside(folder: string, without: string | undefined): (name: string) => boolean {
  if (without === undefined) return () => true;
  const way = relative(folder, without);
  if (way === '' || way === '..' || way.startsWith(`..${sep}`)) return () => true;
  const prefix = `${way.split(sep).join('/')}/`;
  return (name) => !name.startsWith(prefix);
}
