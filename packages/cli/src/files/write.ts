import { access, constants, lstat, mkdir, realpath, rename, stat, unlink } from 'node:fs/promises';
import { dirname } from 'node:path';
import { CliError, Exit } from '../exit.js';
import type { Destination } from './jobs.js';
import { type FileState, isUnchanged } from './read.js';
import { moveToNew, secondName, stage } from './stage.js';
import { inPlainWords, systemCode } from './trouble.js';

/** Backups of one file that are tried before we give up: far more than anybody keeps. */
const MOST_BACKUPS = 9999;

/**
 * Writes a result to `path`, whole or not at all. An existing file is replaced with `force` only, keeps its access
 * rights, and is reached through symbolic links: the link stays. Folders on the way are made with `makeFolder`.
 */
export async function writeResult(
  path: string,
  bytes: Uint8Array,
  { force, makeFolder }: { readonly force: boolean; readonly makeFolder: boolean },
): Promise<void> {
  await guarded(async () => {
    if (makeFolder) await mkdir(dirname(path), { recursive: true });
    if (!(await exists(path))) {
      try {
        await stage(path, bytes, undefined, (temporary) => moveToNew(temporary, path));
        return;
      } catch (error) {
        // Another run took the name meanwhile; with force that file is replaced like any other.
        if (!force || systemCode(error) !== 'EEXIST') throw error;
      }
    }
    const { real, found } = await replaceable(path, force);
    await stage(real, bytes, found, (temporary) => rename(temporary, real));
  });
}

/** True where the name is taken, be it by a symbolic link that leads nowhere. */
async function exists(path: string): Promise<boolean> {
  try {
    await lstat(path);
    return true;
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return false;
    throw error;
  }
}

/**
 * Refuses, before any work is done for it, a result that could not be written: as `writeResult` and `replaceInPlace`
 * would, which check again when they write.
 */
export async function checkTarget(destination: Destination): Promise<void> {
  await guarded(async () => {
    if (destination.kind === 'file') {
      const { path, force } = destination;
      if (await exists(path)) await replaceable(path, force);
      const folder = dirname(path);
      if (!destination.makeFolder && !(await exists(folder)))
        throw new CliError(Exit.unwritten, `there is no folder ${folder}; make it, or check the name`);
      await access(await folderThatIs(folder, destination.makeFolder), constants.W_OK);
    }
    if (destination.kind === 'in-place' && (await exists(destination.path))) {
      const found = await stat(destination.path);
      // What cannot be read is refused for that.
      if (found.isFile() && (found.mode & 0o444) !== 0) refuseReadOnly(found.mode);
    }
  });
}

/** The folder, or the nearest one above it that is there already. */
async function folderThatIs(folder: string, makeFolder: boolean): Promise<string> {
  const there = !makeFolder || (await exists(folder));
  const above = dirname(folder);
  if (!there && above !== folder) return folderThatIs(above, makeFolder);
  if (!(await stat(folder)).isDirectory())
    throw new CliError(Exit.unwritten, 'part of the path is not a folder; check the name');
  return folder;
}

async function replaceable(path: string, force: boolean) {
  const real = await realpath(path);
  const found = await stat(real);
  if (found.isDirectory()) throw new CliError(Exit.unwritten, 'is a folder; name a file, or use --out-dir');
  if (!found.isFile()) throw new CliError(Exit.unwritten, 'is not a regular file; use - for standard output');
  if (!force) throw new CliError(Exit.unwritten, 'is already there; choose another name or give --force');
  refuseReadOnly(found.mode);
  return { real, found };
}

/**
 * Replaces the file that was read, keeping the old one as `NAME.bak`, or `NAME.bak2`, `NAME.bak3` ... where that is
 * taken, beside the file itself (not beside a symbolic link to it). Returns the backup's path.
 */
export async function replaceInPlace(path: string, bytes: Uint8Array, state: FileState): Promise<string> {
  return guarded(async () => {
    const real = await realpath(path);
    const found = await stat(real);
    if (!found.isFile()) throw new CliError(Exit.unwritten, 'is not a regular file; give -o OUT instead');
    refuseReadOnly(found.mode);
    return stage(real, bytes, found, async (temporary) => {
      const backup = await keepBackup(real);
      try {
        if (!(await isUnchanged(real, state))) {
          throw new CliError(Exit.unwritten, 'was changed by another program in the meantime; run again');
        }
        await rename(temporary, real);
      } catch (error) {
        await unlink(backup);
        throw error;
      }
      // As the file was named, unless a link leads to it.
      return (await lstat(path)).isSymbolicLink() ? backup : path + backup.slice(real.length);
    });
  });
}

async function keepBackup(real: string): Promise<string> {
  for (let number = 1; number <= MOST_BACKUPS; number += 1) {
    const name = `${real}.bak${number === 1 ? '' : number}`;
    try {
      await secondName(real, name);
      return name;
    } catch (error) {
      if (systemCode(error) !== 'EEXIST') throw error;
    }
  }
  throw new CliError(Exit.unwritten, `there are ${MOST_BACKUPS} backups already; remove some and run again`);
}

/** A rename would replace a write-protected file without asking; its owner protected it for a reason. */
function refuseReadOnly(mode: number): void {
  if ((mode & 0o222) === 0) {
    throw new CliError(Exit.unwritten, 'is write-protected; remove the protection or write elsewhere');
  }
}

/** Runs what writes; whatever goes wrong is a result that could not be written. */
export async function guarded<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof CliError) throw error;
    throw new CliError(Exit.unwritten, inPlainWords(error), { cause: error });
  }
}
