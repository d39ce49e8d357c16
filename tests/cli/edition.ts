import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { handline, scale, type workFolder } from './harness.js';

export const NAMES = ['one/tune.musicxml', 'one/two/tune.xml', 'three/tune.musicxml'];

/** Editions in a work folder, what is done there, and what lies there afterwards. */
export function editionIn(folder: ReturnType<typeof workFolder>) {
  const read = (name: string): string => readFileSync(folder.at(name), 'utf8');
  return {
    read,
    /** The lines of a `--report`. */
    lines: (name: string) =>
      read(name)
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line)),
    mark: (...args: string[]) => handline(['mark', ...args], folder.path),
    /** An edition whose scores share one base name, with a hidden folder, a backup and a page of notes. */
    edition: (names: readonly string[] = NAMES, score = scale()): void => {
      for (const name of [...names, '.hidden/tune.musicxml', 'one/tune.musicxml.bak', 'notes.txt']) {
        mkdirSync(folder.at(`ed/${name}`).replace(/[^/\\]+$/, ''), { recursive: true });
        folder.put(`ed/${name}`, score);
      }
    },
    /** All files below a folder but the record of what is done. */
    below: (name: string): string[] =>
      readdirSync(folder.at(name), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && !entry.parentPath.endsWith('.handline-done'))
        .map((entry) => `${entry.parentPath}/${entry.name}`.slice(folder.at(name).length + 1))
        .sort(),
  };
}
