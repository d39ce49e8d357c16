import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { configDefaults, defineConfig } from 'vitest/config';
import quick from './vitest.config.js';

const HOUR = 3_600_000;

/** Test files that draw more in the long rounds, or read more scores. */
const more = readdirSync(import.meta.dirname, { recursive: true, encoding: 'utf8' }).filter(
  (name) =>
    name.endsWith('.test.ts') &&
    !name.includes('node_modules') &&
    /\/rounds\.js'|\beditions\(/.test(readFileSync(`${import.meta.dirname}/${name}`, 'utf8')),
);

/**
 * Another seed for every state of the files that is committed, so that the long rounds draw what nobody has seen and yet
 * say of a commit the same twice; 1 without git.
 */
function seedOfCommit(): number {
  try {
    const tree = execFileSync('git', ['rev-parse', 'HEAD^{tree}'], {
      cwd: import.meta.dirname,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    return Number.parseInt(tree.slice(0, 7), 16);
  } catch {
    return 1;
  }
}

const seed = process.env.HANDLINE_SEED ?? String(seedOfCommit());
console.log(`Properties are drawn from the seed ${seed}; to draw the same again: HANDLINE_SEED=${seed}`);

/** The long rounds: `npm run test:long`. */
export default defineConfig({
  ...quick,
  test: {
    ...quick.test,
    include: ['tests/**/*.long.test.ts', ...more.map((name) => `tests/${name}`)],
    exclude: configDefaults.exclude,
    env: { HANDLINE_LONG: '1', HANDLINE_SEED: seed },
    testTimeout: HOUR,
    hookTimeout: HOUR,
  },
});
