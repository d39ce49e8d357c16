import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
/** What can be read in one sitting. */
const MOST_LINES = 260;

/** All but the tables of fitted numbers, which nobody reads. */
const sources = ['packages/core/src', 'packages/cli/src', 'tests'].flatMap((folder) =>
  readdirSync(`${ROOT}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !/cost\/tables\/|node_modules/.test(name))
    .map((name) => `${folder}/${name}`),
);

it('every source file can be read in one sitting', () => {
  expect(sources.length).toBeGreaterThan(250);
  const lengths = sources.map((path) => [
    path,
    readFileSync(`${ROOT}${path}`, 'utf8').split('\n').length - 1,
  ]);
  expect(lengths.filter(([, lines]) => Number(lines) > MOST_LINES)).toEqual([]);
});
