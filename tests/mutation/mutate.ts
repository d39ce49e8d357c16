import { readdirSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';

// npm run mutate -- ROOM [FILE...] [--share 0.1 [--seed 2]] [--by TESTS]: mutates a room of core, or only the named files of it, and
// prints the score; with a share, of a random sample of the mutants; judged by the room's tests, or only by those named
// (`fingering/terms,api/lines.test.ts`). What was judged before and has not changed since is taken from the last run of
// the same share and seed.

/** Which tests judge a room, beside those of its own folder. */
const JUDGES: Readonly<Record<string, readonly string[]>> = {
  fingering: ['practice', 'golden', 'handbook/tables.test.ts', 'handbook/handbook.test.ts'],
  motion: ['practice/facts.test.ts', 'practice/held-out.test.ts', 'cues/hands-across.test.ts'],
  cues: [
    'motion/reason.test.ts',
    'api/placement.test.ts',
    'api/report.test.ts',
    'properties/reading-aids.test.ts',
  ],
  musicxml: ['properties/roundtrip.test.ts', 'properties/resaved.test.ts', 'hands/partner-staves.test.ts'],
};

/** Seconds a mutant, and nothing that the others let through. */
const SLOW = ['musicxml/read-hostile', 'handbook/sheets', 'handbook/rank'].map(
  (file) => `tests/${file}.test.ts`,
);

const testsOf = (judge: string): string[] =>
  judge.endsWith('.ts')
    ? [`tests/${judge}`]
    : readdirSync(`tests/${judge}`, { recursive: true, encoding: 'utf8' })
        .filter((file) => file.endsWith('.test.ts') && !file.endsWith('.long.test.ts'))
        .map((file) => `tests/${judge}/${file}`);

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    share: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    by: { type: 'string' },
  },
});
const [room = '', ...files] = positionals;
const share = Number(values.share);
const judges = JUDGES[room];
if (judges === undefined) {
  console.error(
    `npm run mutate -- ROOM [FILE...] [--share 0.1 [--seed 2]]; rooms: ${Object.keys(JUDGES).join(', ')}`,
  );
  process.exit(2);
}
const source = `packages/core/src/${room}`;
process.env.HANDLINE_SAMPLE = `${values.share},${values.seed}`;
process.env.HANDLINE_JUDGES = (values.by?.split(',') ?? [room, ...judges])
  .flatMap(testsOf)
  .filter((file) => !SLOW.includes(file))
  .join();
const results = await new Stryker({
  testRunner: 'in-process',
  testRunnerNodeArgs: ['--import', 'tsx', '--max-old-space-size=1500'],
  plugins: ['./tests/mutation/in-process-runner.ts', './tests/mutation/sampling-checker.ts'],
  checkers: share < 1 ? ['sample'] : [],
  checkerNodeArgs: ['--import', 'tsx'],
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
  incrementalFile: `node_modules/.cache/stryker/${room}${share < 1 ? `-${values.share}-${values.seed}` : ''}.json`,
  tempDirName: '.stryker-tmp',
  reporters: ['clear-text', 'html', 'progress-append-only'],
  htmlReporter: { fileName: `node_modules/.cache/stryker/${room}.html` },
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false, allowEmojis: false },
  concurrency: 1,
  timeoutMS: 20_000,
  dryRunTimeoutMinutes: 30,
}).runMutationTest();
const valid = results.filter(({ status }) => !['Ignored', 'CompileError', 'RuntimeError'].includes(status));
const detected = valid.filter(({ status }) => status === 'Killed' || status === 'Timeout').length;
const score = detected / valid.length;
const error = 1.96 * Math.sqrt((score * (1 - score)) / valid.length);
console.log(
  `${room}: ${detected} of ${valid.length} mutants killed, ${(100 * score).toFixed(1)} %` +
    (share < 1 ? ` (a sample: the whole within ${(100 * error).toFixed(1)} points, 95 of 100 times)` : ''),
);
