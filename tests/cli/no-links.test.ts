import { readFileSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { describe, expect, test, vi } from 'vitest';
import { replaceInPlace, writeResult } from '../../packages/cli/src/files/write.js';
import { workFolder } from './harness.js';

/** A disk without hard links, as many USB sticks are. */
vi.mock('node:fs/promises', async (original) => ({
  ...(await original<typeof import('node:fs/promises')>()),
  link: () => Promise.reject(Object.assign(new Error('no links here'), { code: 'EPERM' })),
}));

const folder = workFolder();
const text = (name: string) => readFileSync(folder.at(name), 'utf8');
const plain = { force: false, makeFolder: false };

describe('on a disk without hard links', () => {
  test('a new name is taken once only', async () => {
    await writeResult(folder.at('out'), Buffer.from('one'), plain);
    await expect(writeResult(folder.at('out'), Buffer.from('two'), plain)).rejects.toMatchObject({ exit: 3 });
    expect([text('out'), folder.names()]).toEqual(['one', ['out']]);
  });

  test('the backup is a copy, and an earlier one stays', async () => {
    folder.put('a', 'old');
    folder.put('a.bak', 'older');
    const found = await stat(folder.at('a'));
    const state = { device: found.dev, inode: found.ino, size: found.size, modified: found.mtimeMs };
    expect(await replaceInPlace(folder.at('a'), Buffer.from('new'), state)).toBe(folder.at('a.bak2'));
    expect([text('a'), text('a.bak'), text('a.bak2')]).toEqual(['new', 'older', 'old']);
  });

  test('a file that another program changed meanwhile is left alone, without a backup', async () => {
    folder.put('a', 'old');
    const found = await stat(folder.at('a'));
    const state = { device: found.dev, inode: found.ino, size: found.size + 1, modified: found.mtimeMs };
    await expect(replaceInPlace(folder.at('a'), Buffer.from('new'), state)).rejects.toThrow(/run again/);
    expect([text('a'), folder.names()]).toEqual(['old', ['a']]);
  });
});
