import { expect, it } from 'vitest';
import { chord } from '#core/fingering/cost/habits/chord.js';
import { type Case, counted, type Onset } from './counted.js';
import { CHORD } from './layouts.js';

/* What the habits of chords count, whatever it weighs: shapes, and steps from chord to chord. */

const held = (key: number, holds: number): Onset => ({ keys: [key], holds });

/** Of all that is counted only these blocks. */
const only = (blocks: string, counts: Record<string, number>) =>
  Object.fromEntries(
    Object.entries(counts).filter(([name]) => blocks.split(' ').includes(name.split(':')[0]!)),
  );

type Row = [string, Case, Record<string, number>];
const hands = ['right', 'left'] as const;

it.each<Row>([
  [
    'an octave of black keys with a white one between',
    { onsets: [[61, 67, 73]], digits: '125' },
    {
      'key: 1 black struck': 1,
      'key: 2 white struck': 1,
      'key: 5 black struck': 1,
      'neighbours: 1 2 6 black-white': 1,
      'neighbours: 2 5 6 white-black': 1,
      'outer: 1 5 12': 1,
      'triad: 1 2 5 wide': 1,
    },
  ],
  // A gap of four semitones is close, of five it is wide.
  [
    'a triad with its wide gap above',
    { onsets: [[60, 64, 69]], digits: '125' },
    {
      'key: 1 white struck': 1,
      'key: 2 white struck': 1,
      'key: 5 white struck': 1,
      'neighbours: 1 2 4 white-white': 1,
      'neighbours: 2 5 5 white-white': 1,
      'outer: 1 5 9': 1,
      'triad: 1 2 5 wide above': 1,
    },
  ],
  [
    'four keys are no triad',
    { onsets: [[60, 63, 66, 72]], digits: '1235' },
    {
      'key: 1 white struck': 1,
      'key: 2 black struck': 1,
      'key: 3 black struck': 1,
      'key: 5 white struck': 1,
      'neighbours: 1 2 3 white-black': 1,
      'neighbours: 2 3 3 black-black': 1,
      'neighbours: 3 5 6 black-white': 1,
      'outer: 1 5 12': 1,
    },
  ],
  [
    'the thumb on two keys',
    { onsets: [[60, 62, 67]], digits: '114' },
    {
      'key: 1 white struck': 2,
      'key: 4 white struck': 1,
      'neighbours: 1 1 2 white-white': 1,
      'neighbours: 1 4 5 white-white': 1,
      'outer: 1 4 7': 1,
      'triad: 1 1 4 wide above': 1,
    },
  ],
  [
    'two keys, the lower one held',
    { onsets: [held(61, 1), 64], digits: '1 13' },
    {
      'key: 1 black held': 1,
      'key: 3 white struck': 1,
      'neighbours: 1 3 3 black-white': 1,
      'outer: 1 3 3': 1,
    },
  ],
  [
    'three keys, two of them held',
    { onsets: [{ keys: [60, 64], holds: 1 }, 67], digits: '12 124' },
    {
      'key: 1 white held': 1,
      'key: 2 white held': 1,
      'key: 4 white struck': 1,
      'neighbours: 1 2 4 white-white': 1,
      'neighbours: 2 4 3 white-white': 1,
      'outer: 1 4 7': 1,
      'triad: 1 2 4 close': 1,
    },
  ],
  ['a single key', { onsets: [[60, 64], 67], digits: '13 5' }, {}],
])('the shape of %s', (_, own, expected) => {
  for (const hand of hands)
    expect(only('key neighbours outer triad', counted(CHORD, chord, { ...own, hand }))).toEqual(expected);
});

it('gaps wider than a seventeenth of semitones count as seventeen', () => {
  const wide = (top: number) =>
    only('neighbours outer', counted(CHORD, chord, { onsets: [[60, top]], digits: '15', span: '270' }));
  expect(wide(76)).toEqual({ 'neighbours: 1 5 16 white-white': 1, 'outer: 1 5 16': 1 });
  for (const top of [77, 79])
    expect(wide(top)).toEqual({ 'neighbours: 1 5 17 white-white': 1, 'outer: 1 5 17': 1 });
});

it.each<Row>([
  [
    'between leaps',
    {
      onsets: [
        [60, 64],
        [69, 72],
        [60, 64],
      ],
      digits: '13 15',
    },
    { 'melody: 1 5 leap down leap down': 1 },
  ],
  // By the highest keys: E to F, F to G.
  [
    'in steps',
    {
      onsets: [
        [60, 64],
        [57, 65],
        [60, 67],
      ],
      digits: '13 15',
    },
    { 'melody: 1 5 step down step up': 1 },
  ],
  [
    'with a single key before and a third behind',
    { onsets: [72, [60, 72], [60, 69]], digits: '5 15' },
    { 'melody: 1 5 same third down': 1 },
  ],
  [
    'between its like',
    {
      onsets: [
        [60, 64],
        [60, 64],
        [60, 64],
      ],
      digits: '13 24',
    },
    { 'melody: 2 4 same same': 1 },
  ],
])('the melody around a chord %s', (_, own, expected) => {
  for (const hand of hands) expect(only('melody', counted(CHORD, chord, { ...own, hand }))).toEqual(expected);
});

it.each<Row>([
  [
    'chord to chord, each key from the nearest one before',
    {
      onsets: [
        [60, 64, 67],
        [59, 65, 67],
      ],
      digits: '135 124',
    },
    {
      'highest: 5 4 0': 1,
      'lowest: 1 1 -1': 1,
      'nearest: 1 1 -1': 1,
      'nearest: 3 2 1': 1,
      'nearest: 5 4 0': 1,
    },
  ],
  [
    'several keys from one',
    { onsets: [64, [60, 64, 67]], digits: '3 135' },
    {
      'highest: 3 5 3': 1,
      'lowest: 3 1 -4': 1,
      'nearest: 3 1 -4': 1,
      'nearest: 3 3 0': 1,
      'nearest: 3 5 3': 1,
    },
  ],
  // F is two semitones from E flat and from G: the lower one counts.
  [
    'a key as near to two: from the lower',
    {
      onsets: [
        [63, 67],
        [65, 72],
      ],
      digits: '24 15',
    },
    { 'highest: 4 5 5': 1, 'lowest: 2 1 2': 1, 'nearest: 2 1 2': 1, 'nearest: 4 5 5': 1 },
  ],
  // Beyond fifteen semitones all leaps are one.
  [
    'a leap',
    {
      onsets: [
        [40, 43],
        [72, 76],
      ],
      digits: '13 24',
    },
    { 'highest: 3 4 15': 1, 'lowest: 1 2 15': 1, 'nearest: 3 2 15': 1, 'nearest: 3 4 15': 1 },
  ],
  [
    'beside a held key, of which there is no step',
    { onsets: [held(72, 2), 60, 62], digits: '5 15 25' },
    { 'highest: 5 5 0': 1, 'lowest: 1 2 2': 1, 'nearest: 1 2 2': 1 },
  ],
  [
    'the held key is let go',
    { onsets: [held(48, 1), 60, 62], digits: '1 15 3' },
    { 'highest: 5 3 2': 1, 'lowest: 1 3 14': 1, 'nearest: 5 3 2': 1 },
  ],
  ['from nothing', { onsets: [{ keys: [] }, [60, 64]], digits: ' 13' }, {}],
  ['single keys', { onsets: [60, 64], digits: '1 3' }, {}],
])('steps of chords: %s', (_, own, expected) => {
  for (const hand of hands)
    expect(only('highest lowest nearest', counted(CHORD, chord, { ...own, hand }))).toEqual(expected);
});
