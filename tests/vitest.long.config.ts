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

/** The long rounds: `npm run test:long`. */
export default defineConfig({
  ...quick,
  test: {
    ...quick.test,
    include: ['tests/**/*.long.test.ts', ...more.map((name) => `tests/${name}`)],
    exclude: configDefaults.exclude,
    env: { HANDLINE_LONG: '1' },
    testTimeout: HOUR,
    hookTimeout: HOUR,
  },
});
