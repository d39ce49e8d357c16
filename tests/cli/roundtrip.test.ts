import { readdirSync, readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { handline, scale, workFolder } from './harness.js';

const folder = workFolder();
const READ = new URL('../../fixtures/read/', import.meta.url);
const names = readdirSync(READ).sort();
const original = (name: string) => readFileSync(new URL(name, READ));

describe('mark and clear on the command line', () => {
  test('bring back every fixture, whatever its encoding', async () => {
    for (const name of names) folder.put(name, original(name));
    const mark = await handline(['mark', ...names, '--in-place'], folder.path);
    expect({ code: mark.code, stderr: mark.stderr }).toEqual({ code: 0, stderr: '' });
    const clear = await handline(['clear', ...names, '--in-place', '--json'], folder.path);
    expect({ code: clear.code, stderr: clear.stderr }).toEqual({ code: 0, stderr: '' });
    const { files } = JSON.parse(clear.stdout.toString());
    expect(files.filter((file: { changed: boolean }) => file.changed).length).toBeGreaterThan(
      names.length / 2,
    );
    for (const name of names) {
      expect(Buffer.compare(readFileSync(folder.at(name)), original(name)), name).toBe(0);
    }
  });

  test('keep a compressed score an archive with the same entries; only the score in it is marked', async () => {
    folder.put('a.mxl', original('compressed.mxl'));
    expect((await handline(['mark', 'a.mxl', '-o', 'b.mxl'], folder.path)).code).toBe(0);
    expect((await handline(['clear', 'b.mxl', '-o', 'c.mxl'], folder.path)).code).toBe(0);
    expect(Buffer.compare(readFileSync(folder.at('c.mxl')), original('compressed.mxl'))).toBe(0);
    const [a, b] = ['a', 'b'].map((name) => unzipSync(readFileSync(folder.at(`${name}.mxl`)))) as [
      Record<string, Uint8Array>,
      Record<string, Uint8Array>,
    ];
    // Beside the score's own entries one that keeps it as it was compressed.
    expect(Object.keys(b)).toEqual([...Object.keys(a), 'META-INF/handline-original']);
    const changed = Object.keys(a).filter((name) => Buffer.compare(a[name]!, b[name]!) !== 0);
    expect(changed).toEqual(['score/ladle.musicxml']);
    expect(Buffer.from(b['score/ladle.musicxml']!).toString()).toContain('<fingering');
  });

  test('one mark after another replaces the first; clear still brings the original back', async () => {
    folder.put('a.musicxml', scale());
    await handline(['mark', 'a.musicxml', '--in-place', '--span', 'small', '--legend'], folder.path);
    await handline(
      ['mark', 'a.musicxml', '--in-place', '--language', 'de', '--layers', 'carry'],
      folder.path,
    );
    const once = await handline(['mark', '-', '--language', 'de', '--layers', 'carry'], folder.path, scale());
    expect(readFileSync(folder.at('a.musicxml'), 'utf8')).toBe(once.stdout.toString());
    await handline(['clear', 'a.musicxml', '--in-place'], folder.path);
    expect(readFileSync(folder.at('a.musicxml'), 'utf8')).toBe(scale());
  });
});
