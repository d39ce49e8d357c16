import { Stryker } from '@stryker-mutator/core';

// npm run mutate -- ROOM [FILE...]: mutates a room of core, or only the named files of it, and prints the score. What was
// judged before and has not changed since is taken from the last run.

/** Which tests judge a room, beside those of its own folder. */
const JUDGES: Readonly<Record<string, readonly string[]>> = {
  fingering: ['practice', 'handbook', 'api/lines.test.ts'],
  motion: ['practice', 'cues/hands-across.test.ts'],
  cues: ['api/placement.test.ts', 'api/report.test.ts', 'properties/reading-aids.test.ts'],
  musicxml: ['properties/forms.test.ts', 'properties/roundtrip.test.ts', 'properties/resaved.test.ts'],
};

const testsOf = (judge: string): string => `tests/${judge}${judge.endsWith('.ts') ? '' : '/**/*.test.ts'}`;

const [room = '', ...files] = process.argv.slice(2);
const judges = JUDGES[room];
if (judges === undefined) {
  console.error(`npm run mutate -- ROOM [FILE...]; rooms: ${Object.keys(JUDGES).join(', ')}`);
  process.exit(2);
}
const source = `packages/core/src/${room}`;
process.env.HANDLINE_JUDGES = [room, ...judges].map(testsOf).join();
const results = await new Stryker({
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
  // Stryker would rewrite the project references with a compiler API that TypeScript 7 lacks; nothing is compiled here.
  tsconfigFile: 'none',
  mutate: [
    ...(files.length === 0 ? [`${source}/**/*.ts`] : files.map((file) => `${source}/**/${file}`)),
    // Numbers of the fit and plain text: nothing to be judged by logic.
    '!packages/core/src/fingering/cost/tables/**',
    '!packages/core/src/cues/words/*.ts',
  ],
  ignorePatterns: ['**/dist', 'coverage', 'demo-out'],
  coverageAnalysis: 'perTest',
  // What runs while test files load counts for the tests that run it later, and constants are not mutated.
  ignoreStatic: true,
  incremental: true,
  incrementalFile: `node_modules/.cache/stryker/${room}.json`,
  tempDirName: '.stryker-tmp',
  reporters: ['clear-text', 'html'],
  htmlReporter: { fileName: `node_modules/.cache/stryker/${room}.html` },
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false, allowEmojis: false },
  concurrency: 2,
  timeoutMS: 30_000,
}).runMutationTest();
const detected = results.filter(({ status }) => status === 'Killed' || status === 'Timeout').length;
const valid = results.filter(
  ({ status }) => status !== 'Ignored' && status !== 'CompileError' && status !== 'RuntimeError',
).length;
console.log(`${room}: ${detected} of ${valid} mutants killed, ${((100 * detected) / valid).toFixed(1)} %`);
