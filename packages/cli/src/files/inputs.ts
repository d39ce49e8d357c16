import { stat } from 'node:fs/promises';
import { dirname, join, relative, resolve, sep } from 'node:path';
import type { Readable } from 'node:stream';
import { usageError } from '../exit.js';
import { readList } from './lists.js';
import { folderOf, isPattern, matching, scoresIn } from './search.js';
import { inPlainWords, systemCode } from './trouble.js';

/** One score to be read. */
export interface Input {
  /** Its path; `-` is standard input. */
  readonly path: string;
  /** True where it was named itself, not found in a folder, by a pattern or in a list. */
  readonly named: boolean;
}

export interface Inputs {
  readonly list: readonly Input[];
  /** The folder that all of them share. */
  readonly shared: string;
  /** True where no number of scores was typed: one found in a folder is treated as several would be. */
  readonly many: boolean;
}

/**
 * The scores that the command line names: files, folders (with their subfolders), patterns, and lists of these as
 * `@FILE` or `@-`.
 *
 * @param without folder of results, whose files are no inputs where it lies within a folder that is searched
 */
export async function expandInputs(
  names: readonly string[],
  stdin: Readable,
  without: string | undefined,
): Promise<Inputs> {
  const list: Input[] = [];
  const folders: string[] = [];
  let many = names.length > 1;
  const add = async (name: string, listed: boolean): Promise<void> => {
    const kind = name === '-' ? 'file' : await kindOf(name);
    if (kind === 'file') {
      list.push({ path: name, named: !listed });
      folders.push(dirname(name));
      return;
    }
    many = true;
    const found = kind === 'folder' ? await searched(name, without) : await matching(name, without);
    if (found.length === 0 && !listed) {
      throw usageError(
        kind === 'folder'
          ? `${name} holds no score (.musicxml, .xml or .mxl); name another folder`
          : `no file matches ${name}; check the pattern`,
      );
    }
    for (const path of found) list.push({ path, named: false });
    folders.push(kind === 'folder' ? name : folderOf(name));
  };
  for (const name of names) {
    if (name.length < 2 || !name.startsWith('@')) {
      await add(name, false);
      continue;
    }
    if (names.includes('-') && name === '@-') throw usageError('standard input is either a score or a list');
    many = true;
    const listed = await readList(name, stdin);
    if (listed.length === 0) throw usageError(`the list ${name.slice(1)} names no score`);
    for (const entry of listed) await add(entry, true);
  }
  return { list, shared: sharedFolder(folders), many };
}

async function kindOf(name: string): Promise<'file' | 'folder' | 'pattern'> {
  try {
    return (await stat(name)).isDirectory() ? 'folder' : 'file';
  } catch {
    // A file that is not there, too: whoever reads it says why it cannot be read.
    return isPattern(name) ? 'pattern' : 'file';
  }
}

async function searched(folder: string, without: string | undefined): Promise<string[]> {
  try {
    return await scoresIn(folder, without);
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
    throw usageError(`${folder}: ${inPlainWords(error)}`);
  }
}

function sharedFolder(folders: readonly string[]): string {
  const [first = '.', ...others] = [...new Set(folders)].map((folder) => resolve(folder));
  let shared = first;
  for (const folder of others) {
    while (!isWithin(shared, folder)) shared = dirname(shared);
  }
  return shared;
}

function isWithin(folder: string, path: string): boolean {
  return path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

/**
 * Where the result of `path` lies below a folder of results that mirrors the folder `root`.
 *
 * @throws CliError usage, where the score lies outside `root`
 */
export function mirrored(path: string, root: string, outDir: string): string {
  const [from, score] = [resolve(root), resolve(path)];
  if (!isWithin(from, score)) {
    throw usageError(`${path} lies outside --root ${root}; name a folder that holds every score`);
  }
  return join(outDir, relative(from, score));
}
