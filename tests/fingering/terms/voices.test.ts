import { expect, it } from 'vitest';
import { crossing } from '#core/fingering/cost/terms/crossing.js';
import { frame } from '#core/fingering/cost/terms/frame.js';
import { hop } from '#core/fingering/cost/terms/hop.js';
import { position } from '#core/fingering/cost/terms/position.js';
import { stretch } from '#core/fingering/cost/terms/stretch.js';
import type { Term } from '#core/fingering/cost/terms/term.js';
import { travel } from '#core/fingering/cost/terms/travel.js';
import { type Case, counted, type Layout, type Onset } from './counted.js';
import { CROSSING, FRAME, HOP, POSITION, REACH, TRAVEL } from './layouts.js';

/*
 * Chords and two voices, by what the terms count and not by fitted weights. A key is held as long as it says. Keys by hand:
 * x is 0 on D4 (62), a white key is 23.5 mm wide: G3 (55) -94, C4 (60) -23.5, E4 23.5, F4 47, G4 70.5, A4 94, C5 141.
 */

const held = (key: number, holds: number): Onset => ({ keys: [key], holds });

const check =
  (layout: Layout, term: Term) =>
  (_: string, own: Case, expected: Record<string, number>): void => {
    for (const hand of ['right', 'left'] as const)
      expect(counted(layout, term, { ...own, hand })).toEqual(expected);
  };

type Row = [string, Case, Record<string, number>];

it.each<Row>([
  // The hand lies at 23.5 (1 on C, 3 on E), then at 70.5.
  [
    'two keys a third on',
    {
      onsets: [
        [60, 64],
        [64, 67],
      ],
      digits: '13 13',
    },
    { 'mm: moderate': 47 },
  ],
  [
    'other fingers on the same keys',
    {
      onsets: [
        [60, 64],
        [60, 64],
      ],
      digits: '13 24',
    },
    { 'mm: moderate': 23.5 },
  ],
  // 5 on C5 says 141 - 47.
  ['from a triad to a key', { onsets: [[60, 64, 67], 72], digits: '135 5' }, { 'mm: moderate': 70.5 }],
  ['and back', { onsets: [72, [60, 64, 67]], digits: '5 135' }, { 'mm: moderate': 70.5 }],
  // 1 on G3 says -47 both times; 5 on C -70.5, on D -47: the mean moves by half.
  ['above a held key', { onsets: [held(55, 2), 60, 62], digits: '1 15 15' }, { 'mm: moderate': 11.75 }],
  // Three fingers on C E G say 23.5, 4 on F says 23.5 as well.
  ['a triad to its own place', { onsets: [[60, 64, 67], 65], digits: '135 4' }, { 'mm: moderate': 0 }],
  ['from nothing', { onsets: [{ keys: [] }, [60, 64]], digits: ' 13' }, {}],
  ['to nothing', { onsets: [[60, 64], { keys: [] }], digits: '13 ' }, {}],
])('travel: %s', check(TRAVEL, travel));

it.each<Row>([
  // C E G C by 1 2 3 5. At rest: 1-2 from 1 to 5 semitones, 1-3 3 to 7; beyond it: 1-5 27.4167 mm of 68.5417 to its limit,
  // E-G by 2-3 19.5833 of 41.125, E-C by 2-5 35.25 of 54.8333, G-C by 3-5 15.6667 of 41.125.
  [
    'a triad with its octave',
    { onsets: [[60, 64, 67, 72]], digits: '1235' },
    {
      'reach: together 15 over': 27.4167,
      'reach: together 15 strain': 0.0256,
      'reach: together 23 over': 19.5833,
      'reach: together 23 strain': 0.0514,
      'reach: together 25 over': 35.25,
      'reach: together 25 strain': 0.1708,
      'reach: together 35 over': 15.6667,
      'reach: together 35 strain': 0.0211,
    },
  ],
  // At rest: 1-2 (23.5 mm) from 13.7 mm on, 2-4 (47) from 41.1 to 54.8, 1-4 (70.5) from 68.5 to 123.4.
  ['a chord at ease', { onsets: [[60, 62, 65]], digits: '124' }, {}],
  // 2-5 is comfortable from 27.4167 mm on, at rest from 68.5417.
  [
    'a second by 2 and 5',
    { onsets: [[60, 62]], digits: '25' },
    { 'reach: together 25 under relaxed': 45.0417, 'reach: together 25 under comfortable': 3.9167 },
  ],
  // 3 lies 47 mm left of the thumb: 1-3 is at rest from 41.125 mm on, comfortable from -27.4167.
  [
    'fingers out of order, as digits given in the file may be',
    { onsets: [[60, 64]], digits: '31' },
    { 'reach: together 13 under relaxed': 88.125, 'reach: together 13 under comfortable': 19.5833 },
  ],
  // A held key stretches like a struck one: 164.5 mm.
  [
    'against a held key',
    { onsets: [held(60, 1), 72], digits: '1 15' },
    { 'reach: together 15 over': 27.4167, 'reach: together 15 strain': 0.0256 },
  ],
  ['no pair in time from a chord', { onsets: [[60, 64], 79], digits: '13 5' }, {}],
  ['nor beside a held key', { onsets: [held(62, 2), 64, 71], digits: '1 12 15' }, {}],
])('stretch: %s', check(REACH, stretch));

it.each<Row>([
  ['a seventh chord', { onsets: [[60, 64, 67, 70]], digits: '1235' }, {}],
  ['a seventh chord by 1 2 3 4', { onsets: [[60, 64, 67, 70]], digits: '1234' }, { 'outside: 4 for 5': 1 }],
  [
    'a seventh chord without thumb',
    { onsets: [[60, 64, 67, 70]], digits: '2345' },
    { 'outside: no thumb': 1 },
  ],
  ['five keys', { onsets: [[60, 62, 64, 65, 67]], digits: '12345' }, {}],
  ['the thumb on two keys', { onsets: [[60, 62, 65, 69]], digits: '1124' }, { 'outside: 4 for 5': 1 }],
  // A key that sounds on binds the hand: there is no choice of a frame.
  ['two keys beside a held one', { onsets: [held(60, 1), [64, 67]], digits: '2 234' }, {}],
  ['three keys beside a held one', { onsets: [held(60, 1), [64, 67, 71]], digits: '1 1234' }, {}],
])('frame: %s', check(FRAME, frame));

/* A white key is 1.714286 semitones wide, and 1.5 semitones are within a finger's ease. */
it.each<Row>([
  // From 3 on C to 4 on F 5 semitones, of which one finger makes 1.7143.
  [
    'onward',
    { onsets: [held(52, 4), 60, 62, 65], digits: '1 13 14 14' },
    { 'place: beside a held key onward': 1.7857 },
  ],
  // Before the turn two keys were struck at once: nothing tells how far the hand has gone, only what its fingers had.
  [
    'two keys struck before, each with its finger',
    { onsets: [held(52, 4), [60, 64], 62, 60], digits: '1 125 13 12' },
    {},
  ],
  [
    'one of them by another finger',
    { onsets: [held(52, 4), [60, 64], 62, 60], digits: '1 125 14 13' },
    { 'place: beside a held key returning key': 1 },
  ],
  [
    'by the other’s finger',
    { onsets: [held(52, 4), [60, 64], 62, 60], digits: '1 125 14 15' },
    { 'place: beside a held key returning key': 1, 'place: beside a held key returning finger': 1 },
  ],
  [
    'alone, once the held key is let go',
    { onsets: [held(52, 2), 60, 62, 65], digits: '1 13 14 4' },
    { 'place: alone onward': 1.7857 },
  ],
  ['a chord before, no key held', { onsets: [[60, 64], 62, 60], digits: '12 1 5' }, {}],
  ['a chord between', { onsets: [60, [62, 65], 64], digits: '1 24 1' }, {}],
  ['a chord behind', { onsets: [60, 65, [62, 64]], digits: '1 5 13' }, {}],
  ['a phrase that begins', { onsets: [60, 67, { keys: [65], phraseStart: true }], digits: '1 5 2' }, {}],
  // 1 on the same note again, then D: 4 stands 5.1429 semitones on.
  ['a repeated key is no turn', { onsets: [60, 60, 62], digits: '1 1 4' }, { 'place: alone onward': 1.6429 }],
  // Within an octave one finger does not fetch both keys, from an octave on the hand has gone.
  [
    'a seventh back by the same finger',
    { onsets: [60, 76, 71], digits: '1 5 1' },
    { 'place: alone turning': 9.5, 'place: alone returning finger': 1 },
  ],
  [
    'an octave back by the same finger',
    { onsets: [60, 76, 72], digits: '1 5 1' },
    { 'place: alone turning': 10.5 },
  ],
])('position: %s', check(POSITION, position));

it.each<Row>([
  [
    'of the lower voice, under a held key',
    { onsets: [held(72, 3), 60, 59], digits: '5 15 25' },
    { 'over the thumb: white white': 1 },
  ],
  [
    'the thumb passes under a held key',
    { onsets: [held(72, 3), 62, 63], digits: '5 25 15' },
    { 'thumb passes: white black': 1 },
  ],
  [
    'of long fingers above a held key',
    { onsets: [held(52, 3), 64, 66], digits: '1 14 13' },
    { 'others: longer on black': 1 },
  ],
  [
    'none of chords',
    {
      onsets: [
        [60, 64],
        [62, 65],
      ],
      digits: '23 12',
    },
    {},
  ],
  [
    'none where two keys are struck beside a held one',
    { onsets: [held(52, 3), 64, [62, 65]], digits: '1 12 135' },
    {},
  ],
])('crossing: %s', check(CROSSING, crossing));

it.each<Row>([
  [
    'two fingers at once beside a held key',
    { onsets: [held(48, 3), [55, 59], [57, 60]], digits: '1 135 135' },
    { 'hop: beside a held key moderate': 2 },
  ],
  [
    'the finger of a key that was let go',
    { onsets: [held(48, 1), held(55, 1), 57], digits: '1 13 31' },
    { 'hop: beside a held key moderate': 1 },
  ],
  [
    'a slide beside a held key',
    { onsets: [held(48, 3), 61, 60], digits: '1 13 13' },
    { 'slide: from black': 1 },
  ],
  [
    '2 does not slide',
    { onsets: [held(48, 3), 61, 60], digits: '1 12 12' },
    { 'hop: beside a held key moderate': 1 },
  ],
  ['from a chord to a key', { onsets: [[60, 64], 67], digits: '13 3' }, {}],
  ['after a breath', { onsets: [held(48, 3), 55, { keys: [59], phraseStart: true }], digits: '1 13 13' }, {}],
])('hop: %s', check(HOP, hop));
