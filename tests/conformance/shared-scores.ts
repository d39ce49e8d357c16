import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const FOLDER = fileURLToPath(new URL('../../../shared/human-fingering/scores/', import.meta.url));
const GOLDEN_RATIO = 0.618_033_988_75;

/** Why no shared score is read, or undefined where there are some. */
export const missingScores = existsSync(FOLDER) ? undefined : `no ${FOLDER}: its scores are left out`;

/**
 * Paths of shared scores: all of them with HANDLINE_ALL=1 in the environment, else `count`, spread evenly over the
 * sorted names and the same in every run. `start` from 0 to 1 gives every test a sample of its own.
 */
export function sharedScores(count: number, start = 0): string[] {
  if (missingScores !== undefined) return [];
  const names = readdirSync(FOLDER).filter((name) => /\.(?:musicxml|xml|mxl)$/.test(name));
  const paths = names.sort().map((name) => `${FOLDER}${name}`);
  if (process.env.HANDLINE_ALL === '1' || paths.length <= count) return paths;
  const picked = new Set<number>();
  for (let at = 0; picked.size < count; at++) {
    picked.add(Math.floor(((start + at * GOLDEN_RATIO) % 1) * paths.length));
  }
  return [...picked].sort((a, b) => a - b).map((at) => paths[at] as string);
}
