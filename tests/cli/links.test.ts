import { linkSync, lstatSync, mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { handline, scale, workFolder } from './harness.js';

const folder = workFolder();
const text = (name: string) => readFileSync(folder.at(name), 'utf8');

describe('one file under several names', () => {
  test.each<[string, string[], RegExp]>([
    [
      'given twice',
      ['a.musicxml', 'link.musicxml', '--in-place'],
      /a\.musicxml and link\.musicxml are the same file/,
    ],
    [
      'given through a linked folder',
      ['sub/b.musicxml', 'way/b.musicxml', '--in-place'],
      /are the same file/,
    ],
    [
      'as result of itself',
      ['a.musicxml', '-o', 'link.musicxml', '--force'],
      /overwrite the input a\.musicxml/,
    ],
    [
      'as result of its link',
      ['link.musicxml', '-o', 'a.musicxml', '--force'],
      /overwrite the input link\.musicxml/,
    ],
    ['in a folder that leads back', ['sub/b.musicxml', '--out-dir', 'way', '--force'], /overwrite the input/],
  ])('%s is refused before anything is read', async (_, args, message) => {
    for (const name of ['sub', 'other']) mkdirSync(folder.at(name));
    for (const name of ['a', 'sub/b', 'other/a']) folder.put(`${name}.musicxml`, scale());
    symlinkSync('a.musicxml', folder.at('link.musicxml'));
    symlinkSync('sub', folder.at('way'));
    const { code, stderr } = await handline(['mark', ...args], folder.path);
    expect({ code, lines: stderr.split('\n').length }).toEqual({ code: 2, lines: 2 });
    expect(stderr).toMatch(message);
    expect([folder.names(), folder.names('sub'), folder.names('other')]).toEqual([
      ['a.musicxml', 'link.musicxml', 'other', 'sub', 'way'],
      ['b.musicxml'],
      ['a.musicxml'],
    ]);
    for (const name of ['a', 'sub/b', 'other/a']) expect(text(`${name}.musicxml`)).toBe(scale());
  });

  test('a result under another hard link of the input leaves the input as it was', async () => {
    folder.put('a.musicxml', scale());
    linkSync(folder.at('a.musicxml'), folder.at('twin.musicxml'));
    const run = await handline(['mark', 'a.musicxml', '-o', 'twin.musicxml', '--force'], folder.path);
    expect(run.code).toBe(0);
    expect(text('a.musicxml')).toBe(scale());
    expect(text('twin.musicxml')).toContain('<fingering');
  });

  test('both hard links in place: each is marked once, and each has its backup', async () => {
    folder.put('a.musicxml', scale());
    linkSync(folder.at('a.musicxml'), folder.at('twin.musicxml'));
    const run = await handline(['mark', 'a.musicxml', 'twin.musicxml', '--in-place'], folder.path);
    expect(run.code).toBe(0);
    expect(text('twin.musicxml')).toBe(text('a.musicxml'));
    expect([text('a.musicxml.bak'), text('twin.musicxml.bak')]).toEqual([scale(), scale()]);
  });

  test('links that lead in a circle, as input and as result', async () => {
    folder.put('a.musicxml', scale());
    symlinkSync('there.musicxml', folder.at('here.musicxml'));
    symlinkSync('here.musicxml', folder.at('there.musicxml'));
    const read = await handline(['mark', 'here.musicxml', '-o', 'out.musicxml'], folder.path);
    expect(read).toMatchObject({
      code: 1,
      stderr: 'handline: here.musicxml: its symbolic links form a loop; name the file itself\n',
    });
    const written = await handline(['mark', 'a.musicxml', '-o', 'here.musicxml', '--force'], folder.path);
    expect(written).toMatchObject({
      code: 3,
      stderr: 'handline: here.musicxml: its symbolic links form a loop; name the file itself\n',
    });
    expect(lstatSync(folder.at('here.musicxml')).isSymbolicLink()).toBe(true);
    expect(folder.names()).toEqual(['a.musicxml', 'here.musicxml', 'there.musicxml']);
  });
});
