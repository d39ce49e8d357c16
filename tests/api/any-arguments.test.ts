import * as core from '@handline/core';
import { annotate, HandlineError, planMotion, readLines, review } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, note, onePart } from '../musicxml/read-source.js';

const SCORE = onePart([attributes() + note('C5', 4), note('D5', 4)]);
const { line, hand } = readLines(SCORE).lines[0]!;
const { fingering } = core.fingerLine(line, hand);
const plan = planMotion(line, fingering, hand);
const { report } = annotate(SCORE);

/** What somebody without a compiler may give, some of it what another function wants. */
const ODD: readonly unknown[] = [
  undefined,
  null,
  {},
  [],
  [null],
  '',
  'en',
  'xx',
  7,
  Number.NaN,
  true,
  () => 0,
];
const RIGHT: readonly unknown[] = [
  SCORE,
  line,
  hand,
  fingering,
  plan,
  report,
  review(SCORE),
  report.warnings,
];

const FUNCTIONS = Object.entries(core).filter(
  ([name, value]) => typeof value === 'function' && !name.endsWith('Error'),
) as [string, (...args: unknown[]) => unknown][];

async function judge(name: string, act: (...args: unknown[]) => unknown, args: readonly unknown[]) {
  try {
    await act(...args);
  } catch (error) {
    const told = error instanceof HandlineError ? error.message : `${name}: ${String(error)}`;
    expect([name, told]).toEqual([name, expect.stringMatching(/^[^\n]{1,500}$/)]);
    if (!(error instanceof HandlineError)) throw error;
  }
}

describe('nothing else than a HandlineError comes of any arguments', () => {
  it.each(FUNCTIONS)('%s', async (name, act) => {
    const values = [...ODD, ...RIGHT];
    await judge(name, act, []);
    for (const first of values) {
      await judge(name, act, [first]);
      for (const second of ODD) await judge(name, act, [first, second]);
    }
    for (const third of ODD) {
      await judge(name, act, [SCORE, {}, third]);
      await judge(name, act, [line, plan, third]);
      await judge(name, act, [line, fingering, third]);
    }
  });
});

it('annotateAsync says what is missing, and takes no options for the defaults', async () => {
  const refusals: readonly (readonly [readonly unknown[], string])[] = [
    [
      [SCORE],
      'asyncOptions: {} is not allowed; give an object with worker, signal, onProgress; worker is missing',
    ],
    [[SCORE, {}], 'worker is missing'],
    [[SCORE, {}, {}], 'worker is missing'],
    [[SCORE, {}, { worker: {} }], 'asyncOptions.worker: {} is not allowed; give a worker whose script calls'],
    [
      [SCORE, {}, { worker: port(), signal: 1 }],
      'asyncOptions.signal: 1 is not allowed; give an AbortSignal',
    ],
  ];
  for (const [args, message] of refusals) {
    const call = (core.annotateAsync as (...args: unknown[]) => Promise<unknown>)(...args);
    await expect(call).rejects.toThrow(message);
    await expect(call).rejects.toBeInstanceOf(HandlineError);
  }
  const worker = port();
  void core.annotateAsync(SCORE, undefined, { worker });
  await Promise.resolve();
  expect(worker.sent).toMatchObject([{ input: SCORE, options: {} }]);
});

function port() {
  const sent: unknown[] = [];
  return { sent, postMessage: (message: unknown) => sent.push(message), terminate: () => 0, on: () => 0 };
}
