import {
  alternatives,
  annotate,
  clear,
  fingerLine,
  HandlineError,
  handModel,
  planDigits,
  planMotion,
  readLines,
} from '@handline/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { attributes, note, onePart } from '../musicxml/read-source.js';

const SCORE = onePart([attributes() + note('C5', 4), note('D5', 4)]);
const { line, hand } = readLines(SCORE).lines[0]!;
const { fingering } = fingerLine(line, hand);

/** Calls with whatever somebody without a compiler may write. */
const FUNCTIONS = {
  annotate: (options: unknown) => annotate(SCORE, options as object),
  clear: (options: unknown) => clear(SCORE, options as object),
  readLines: (options: unknown) => readLines(SCORE, options as object),
  planDigits: (options: unknown) => planDigits(SCORE, options as object),
  fingerLine: (options: unknown) => fingerLine(line, hand, options as object),
  alternatives: (options: unknown) => alternatives(line, hand, options as object),
} as const;
type Name = keyof typeof FUNCTIONS;

const ANNOTATE: readonly Name[] = ['annotate'];
const READING: readonly Name[] = ['annotate', 'readLines', 'planDigits'];
const SOURCE: readonly Name[] = ['annotate', 'clear', 'readLines', 'planDigits'];
const FINGERING: readonly Name[] = ['fingerLine', 'alternatives'];
const ALL = Object.keys(FUNCTIONS) as Name[];

/** Which functions refuse which options, and what the message must name: the option, and what it may be. */
const REFUSED: readonly (readonly [readonly Name[], unknown, RegExp])[] = [
  [ALL, null, /^options: null .*an object/],
  [ALL, 'hands', /^options: "hands" .*an object/],
  [ALL, [], /^options: \[\] .*an object/],
  [ALL, { foo: 1 }, /^foo: there is no such option; give /],
  [ALL, JSON.parse('{"__proto__":1}'), /^__proto__: there is no such option/],
  [SOURCE, { file: 7 }, /^file: 7 .*text/],
  [SOURCE, { limits: 7 }, /^limits: 7 .*maxBytes, maxDepth, maxNotes, maxRatio/],
  [SOURCE, { limits: { maxDepth: '7' } }, /^limits\.maxDepth: "7" .*above 0 and up to 1000/],
  [SOURCE, { limits: { maxNotes: null } }, /^limits\.maxNotes: null .*above 0/],
  [SOURCE, { limits: { maxFun: 1 } }, /^limits\.maxFun: .*maxBytes, maxDepth, maxNotes, maxRatio/],
  [READING, { parts: 'P1' }, /^parts: "P1" .*a list/],
  [READING, { parts: [1] }, /^parts: 1 .*text/],
  [READING, { staff: 1 }, /^staff: 1 .*right, left/],
  [READING, { staff: { right: 1 } }, /^staff\.right: 1 .*a list/],
  [READING, { staff: { right: ['1'] } }, /^staff\.right: "1" .*from 1 to 64/],
  [READING, { staff: { left: [0] } }, /^staff\.left: 0 .*from 1 to 64/],
  [READING, { staff: { both: [1] } }, /^staff\.both: .*right, left/],
  [READING, { span: true }, /^span: true /],
  [READING, { span: null }, /^span: null /],
  [READING, { span: '40th' }, /^span: "40th" .*140-300 mm/],
  [READING, { span: Number.NaN }, /^span: NaN .*140-300 mm/],
  [READING, { span: { right: '9th', up: '9th' } }, /^span\.up: .*right, left/],
  [['clear', 'readLines', 'planDigits'], { legend: true }, /^legend: there is no such option/],
  [ANNOTATE, { hands: 'up' }, /^hands: "up" .*both, right, left/],
  [ANNOTATE, { measures: '1-2' }, /^measures: "1-2" .*from, to/],
  [ANNOTATE, { measures: { from: '1' } }, /^measures: \{"from":"1"\} .*from, to/],
  [ANNOTATE, { measures: { from: 1, to: 2 } }, /^measures\.from: 1 .*text/],
  [ANNOTATE, { layers: 'depth' }, /^layers: "depth" .*a list/],
  [ANNOTATE, { layers: ['deep'] }, /^layers: "deep" .*depth, crossing, carry, contour, roll/],
  [ANNOTATE, { density: 'all' }, /^density: "all" .*every, essential, demanding/],
  [ANNOTATE, { language: 'la' }, /^language: "la" .*en, de, fr, es, it/],
  [ANNOTATE, { wording: 'in' }, /^wording: "in" .*an object/],
  [ANNOTATE, { wording: { in: 1 } }, /^wording\.in: 1 .*text/],
  [ANNOTATE, { wording: { 'in-ish': 'in' } }, /^wording: .*in-ish/],
  [ANNOTATE, { legend: 'no' }, /^legend: "no" .*true or false/],
  [ANNOTATE, { digits: 'some' }, /^digits: "some" .*all, sparse, none/],
  [ANNOTATE, { existing: 'keep ' }, /^existing: "keep " .*keep, ignore, replace/],
  [ANNOTATE, { alternatives: 10 }, /^alternatives: 10 .*from 0 to 9/],
  [ANNOTATE, { alternatives: '1' }, /^alternatives: "1" .*from 0 to 9/],
  [ANNOTATE, { alternatives: 10n }, /^alternatives: 10 .*from 0 to 9/],
  [ANNOTATE, { shareHands: 'yes' }, /^shareHands: "yes" .*true or false/],
  [ANNOTATE, { nextBest: 1 }, /^nextBest: 1 .*true or false/],
  [ANNOTATE, { slices: 'no' }, /^slices: "no" .*true or false/],
  [ANNOTATE, { strict: 1 }, /^strict: 1 .*true or false/],
  [FINGERING, { keepDigits: 'yes' }, /^keepDigits: "yes" .*true or false/],
  [FINGERING, { flow: {} }, /^flow: \{\} .*context/],
  [FINGERING, { ornaments: [] }, /^ornaments: \[\] .*context/],
  [['fingerLine'], { alternates: -1 }, /^alternates: -1 .*at least 0/],
  [['alternatives'], { count: 1.5 }, /^count: 1\.5 .*at least 0/],
];

function refusal(act: () => unknown): HandlineError {
  try {
    act();
  } catch (error) {
    if (error instanceof HandlineError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('an option that is not allowed is refused by its name, with what is allowed', () => {
  const cases = REFUSED.flatMap(([names, options, message]) =>
    names.map((name) => ({ name, options, message })),
  );
  it.each(cases)('$name($options)', ({ name, options, message }) => {
    const error = refusal(() => FUNCTIONS[name](options));
    expect(error.code).toBe('OPTION');
    expect(error.message).toMatch(message);
    expect(error.message).toMatch(/^[^\n]{1,250}$/);
  });

  it('also what is no score, no line, no hand, no fingers', () => {
    const odd = [undefined, null, 7, {}, [60], new DataView(new ArrayBuffer(8)), new Uint16Array(8)];
    for (const value of odd) {
      for (const act of [annotate, clear, readLines, planDigits]) {
        const error = refusal(() => act(value as string));
        expect([error.code, error.message]).toEqual([
          'OPTION',
          expect.stringMatching(/^input: .*Uint8Array or ArrayBuffer$/),
        ]);
      }
      const none = value as never;
      const messages = [
        () => fingerLine(none, hand),
        () => alternatives(line, none),
        () => planMotion(none, fingering, hand),
        () => planMotion(line, none, hand),
        () => planMotion(line, fingering, none),
      ].map((act) => refusal(act).message.split(':')[0]);
      expect(messages).toEqual(['line', 'hand', 'line', 'fingers', 'hand']);
      if (value !== undefined && value !== 7) expect(refusal(() => handModel(none)).code).toBe('OPTION');
    }
  });

  it('nothing else than a HandlineError comes of any options', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ALL),
        fc.oneof(
          fc.anything({ withBigInt: true, withMap: true, withTypedArray: true, withNullPrototype: true }),
          fc.record(
            {
              staff: fc.anything(),
              span: fc.anything(),
              wording: fc.anything(),
              measures: fc.anything(),
              limits: fc.anything(),
              flow: fc.anything(),
            },
            { requiredKeys: [] },
          ),
        ),
        (name, options) => {
          try {
            FUNCTIONS[name](options);
          } catch (error) {
            if (!(error instanceof HandlineError)) throw error;
            expect(error.message).toMatch(/^[^\n]*$/);
          }
        },
      ),
      { numRuns: 500 },
    );
  });
});

it('an option that is undefined counts as left out', () => {
  const options = { hands: undefined, span: { right: undefined }, limits: { maxNotes: undefined } };
  expect(FUNCTIONS.annotate(options)).toEqual(annotate(SCORE));
});

it('a warning that is refused keeps its code', () => {
  const score = onePart([attributes() + note('C4', 0) + note('C5', 4)]);
  const { warnings } = annotate(score).report;
  const error = refusal(() => annotate(score, { strict: true }));
  expect(error).toMatchObject({ code: 'WARNING_AS_ERROR', warning: { code: 'IMPERFECT' } });
  expect(error.warning).toEqual(warnings[0]);
});
