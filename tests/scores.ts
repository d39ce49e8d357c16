import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { LONG } from './rounds.js';

export const FIXTURES = fileURLToPath(new URL('../fixtures/', import.meta.url));
const SHARED = fileURLToPath(new URL('../../shared/human-fingering/scores/', import.meta.url));
/** Public-domain pieces, not of our own making; fixtures/scores/README.md. */
const PIECES = `${FIXTURES}scores/`;
const GOLDEN_RATIO = 0.618_033_988_75;

const scoresIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(?:musicxml|xml|mxl)$/.test(name))
    .sort();

/** Names below `FIXTURES` of our own tunes. */
export const TUNES: readonly string[] = scoresIn(FIXTURES).filter((name) => !name.startsWith('scores/'));

/**
 * Paths of editions with an editor's digits: the ten of the fixtures, in the long rounds all of the larger set where
 * there is one beside the project. `count` takes as many of the ten, spread evenly over the sorted names and the same
 * in every run; `start` from 0 to 1 gives every test a sample of its own.
 */
export function editions(count = Number.POSITIVE_INFINITY, start = 0): string[] {
  const folder = LONG && existsSync(SHARED) ? SHARED : PIECES;
  const paths = scoresIn(folder).map((name) => `${folder}${name}`);
  if (LONG || paths.length <= count) return paths;
  const picked = new Set<number>();
  for (let at = 0; picked.size < count; at++) {
    picked.add(Math.floor(((start + at * GOLDEN_RATIO) % 1) * paths.length));
  }
  return [...picked].sort((a, b) => a - b).map((at) => paths[at] as string);
}
