import { randomBytes } from 'node:crypto';
import { closeSync, openSync, unlinkSync } from 'node:fs';
import { constants, copyFile, type FileHandle, link, open, rename, unlink } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { onInterruption } from './interruption.js';
import { systemCode } from './trouble.js';

/** Access rights and owner that a staged file takes over from the file it will replace. */
export interface Ownership {
  readonly mode: number;
  readonly uid: number;
  readonly gid: number;
}

/** File systems without hard links (FAT and exFAT sticks, some network drives) answer with one of these. */
const NO_LINKS = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV']);

/**
 * Writes `bytes` whole to a temporary file in the folder of `target`, forces it to the disk, then calls `commit` with
 * its name. The temporary file is gone afterwards, whether `commit` moved it, anything failed, or a signal ended us.
 */
export async function stage<T>(
  target: string,
  bytes: Uint8Array,
  like: Ownership | undefined,
  commit: (temporary: string) => Promise<T>,
): Promise<T> {
  const folder = dirname(target);
  const temporary = join(folder, `.handline-${randomBytes(9).toString('hex')}.tmp`);
  const callOff = onInterruption(() => {
    try {
      unlinkSync(temporary);
    } catch {
      // It could not be created, or is in its final place already.
    }
  });
  try {
    // At once, or a signal could find no file to take away while it is being made.
    closeSync(openSync(temporary, 'wx', 0o666));
    const handle = await open(temporary, 'r+');
    try {
      await fill(handle, bytes, like);
    } finally {
      await handle.close();
    }
    const result = await commit(temporary);
    await syncFolder(folder);
    return result;
  } finally {
    await unlink(temporary).catch(() => undefined);
    callOff();
  }
}

async function fill(handle: FileHandle, bytes: Uint8Array, like: Ownership | undefined): Promise<void> {
  await handle.writeFile(bytes);
  if (like !== undefined) {
    // Only root may give a file to another owner; for anybody else the owner is right already or cannot be changed.
    await handle.chown(like.uid, like.gid).catch(() => undefined);
    await handle.chmod(like.mode & 0o7777);
  }
  await handle.sync();
}

/** Makes the rename itself durable; some systems cannot open a folder, and the file is whole all the same. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch {
    return;
  }
}

/** Gives a staged file its name; fails with EEXIST, and changes nothing, where the name is taken. */
export async function moveToNew(temporary: string, target: string): Promise<void> {
  try {
    await link(temporary, target);
    return;
  } catch (error) {
    if (!NO_LINKS.has(systemCode(error) ?? '')) throw error;
  }
  await (await open(target, 'wx')).close();
  try {
    await rename(temporary, target);
  } catch (error) {
    await unlink(target);
    throw error;
  }
}

/** Gives a file a second name, as a link or else a copy; fails with EEXIST where the name is taken. */
export async function secondName(file: string, name: string): Promise<void> {
  try {
    await link(file, name);
  } catch (error) {
    if (!NO_LINKS.has(systemCode(error) ?? '')) throw error;
    await copyFile(file, name, constants.COPYFILE_EXCL);
  }
}
