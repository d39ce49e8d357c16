import { expect, it } from 'vitest';
import type { Finger, Hand } from '#core/index.js';
import { OCTAVES, passages } from '../handbook/tables.js';
import { mirrorKey } from './passages/keys.js';
import { buildLine, even } from './passages/making/build-line.js';
import type { Span } from './passages/passage.js';
import { type Played, playedOf } from './passages/played.js';
import { chordBreach } from './passages/rules/chord-rules.js';
import { general } from './passages/rules/general-rules.js';
import { barsAlike, position } from './passages/rules/position-rules.js';
import { judgeArpeggio } from './passages/textures/lines/arpeggios.js';
import { judgeChromatic } from './passages/textures/lines/chromatic.js';
import { judgeScale } from './passages/textures/lines/scales.js';

const HANDS: readonly Hand[] = ['right', 'left'];

/** Single keys with one digit each, `rate` a second. */
function melody(hand: Hand, keys: readonly number[], digits: string, rate = 5): Played {
  const line = buildLine(hand, even(keys, 1), { tempo: 60 * rate });
  const slices = [...digits].map((digit) => ({
    struck: [Number(digit) as Finger],
    held: [],
    terms: {},
    movement: 0,
  }));
  return playedOf(line, { slices }, 'medium');
}

const rulesOf = (breaches: readonly { rule: string }[]) => [...new Set(breaches.map(({ rule }) => rule))];

it.each(HANDS)('what handbooks print for scales and arpeggios passes, %s hand', (hand) => {
  const scales = passages(['major scale', 'harmonic minor scale'], hand);
  const arpeggios = passages(['major arpeggio', 'minor arpeggio'], hand);
  for (const { name, keys, forms } of scales) {
    for (const digits of forms)
      expect([name, digits, rulesOf(judgeScale(melody(hand, keys, digits), OCTAVES, true))]).toEqual([
        name,
        digits,
        [],
      ]);
  }
  for (const { name, keys, forms } of arpeggios) {
    for (const digits of forms)
      expect([name, digits, rulesOf(judgeArpeggio(melody(hand, keys, digits), OCTAVES))]).toEqual([
        name,
        digits,
        [],
      ]);
  }
});

// Standard fingerings of the chromatic scale from C, two octaves: common practice, from memory; the left hand's mirrored.
it.each([
  ['3 on black keys', '1313123131312313123131312'],
  ['2 on black keys', '1212123121212312123121212'],
  ['groups of three and four', '1212312341231212312341234'],
])('%s: what handbooks print for the chromatic scale passes', (_, digits) => {
  const up = Array.from({ length: 25 }, (_, nth) => 60 + nth);
  const turning = [...up, ...up.toReversed().slice(1)];
  const back = [...digits].reverse().join('');
  const tests: (readonly [Hand, readonly number[], string])[] = [
    ['right', up, digits],
    ['right', up.toReversed(), back],
    ['right', turning, digits + back.slice(1)],
    ['left', turning.map(mirrorKey), digits + back.slice(1)],
  ];
  for (const [hand, keys, own] of tests) expect(rulesOf(judgeChromatic(melody(hand, keys, own)))).toEqual([]);
});

it.each([
  ['1 2 1 2 there, 4 3 2 1 back', '1212123121212', '4321321432121', 'on the way'],
  ['a slide', '1212123121223', '3221213212121', 'slides'],
  ['a thumb on a black key', '1234512345123', '3215432154321', 'the thumb on a black key'],
])('chromatic, %s: refused', (_, there, back, rule) => {
  const up = Array.from({ length: 13 }, (_, nth) => 60 + nth);
  const played = melody('right', [...up, ...up.toReversed().slice(1)], there + back.slice(1));
  expect(rulesOf(judgeChromatic(played)).join()).toContain(rule);
});

const C_MAJOR = [60, 62, 64, 65, 67, 69, 71, 72, 74, 76, 77, 79, 81, 83, 84];

it.each([
  ['three passes an octave', '123123121231234', 'group of 2'],
  ['octaves unlike', '123123412341235', 'one octave has'],
  ['4 over 5', '123123451231234', '5 crosses the thumb'],
  ['a slide', '123123412331234', 'one finger on two keys'],
])('scale, %s: refused', (_, digits, rule) => {
  expect(rulesOf(judgeScale(melody('right', C_MAJOR, digits), 2, true)).join()).toContain(rule);
});

it.each([
  ['two positions an octave', [56, 60, 63, 68, 72, 75, 80], '3121215', 'passes more often'],
  ['octaves unlike', [60, 63, 67, 72, 75, 79, 84], '1241235', 'one octave has'],
  ['the thumb under 5', [60, 64, 67, 71, 72, 76, 79, 83, 84], '123512345', '5 crosses the thumb'],
  ['the thumb on a black key', [58, 62, 65, 70, 74, 77, 82], '1231235', 'the thumb on a black key'],
])('arpeggio, %s: refused', (_, keys, digits, rule) => {
  expect(rulesOf(judgeArpeggio(melody('right', keys, digits), 2)).join()).toContain(rule);
});

// Arpeggios of dominant sevenths and of the diminished one, two octaves, right hand: common practice, from memory.
it.each([
  ['C', [60, 64, 67, 70], '123412345'],
  ['B flat', [58, 62, 65, 68], '412341234'],
  ['E flat', [63, 67, 70, 73], '412341234'],
  ['F sharp', [66, 70, 73, 76], '234123412'],
  ['C diminished', [60, 63, 66, 69], '123412345'],
])('what handbooks print for the seventh arpeggio of %s passes', (_, tones, digits) => {
  const keys = [...tones, ...tones.map((key) => key + 12), tones[0]! + 24];
  const back = [...digits].reverse().join('');
  const there = melody('right', [...keys, ...keys.toReversed().slice(1)], digits + back.slice(1));
  expect(rulesOf(judgeArpeggio(there, 2))).toEqual([]);
  const mirrored = [...keys, ...keys.toReversed().slice(1)].map(mirrorKey);
  expect(rulesOf(judgeArpeggio(melody('left', mirrored, digits + back.slice(1)), 2))).toEqual([]);
});

/** Right-hand chords: keys, digits, span, and part of the rule that is broken, if any. Common practice. */
it.each<[string, readonly number[], string, Span, string?]>([
  ['a triad', [60, 64, 67], '135', 'medium'],
  ['a triad', [60, 64, 67], '124', 'medium'],
  ['a first inversion', [64, 67, 72], '125', 'small'],
  ['a second inversion', [67, 72, 76], '135', 'medium'],
  ['a triad without 1', [64, 67, 72], '235', 'medium', 'a triad'],
  ['a triad without 5 or 4', [60, 64, 67], '123', 'large', 'a triad'],
  ['a dominant seventh', [67, 71, 74, 77], '1235', 'medium'],
  ['its first inversion', [71, 74, 77, 79], '1245', 'medium'],
  ['its third inversion', [65, 67, 71, 74], '1235', 'medium'],
  ['the thumb on two of four keys', [65, 67, 71, 74], '1125', 'medium', 'a finger is free'],
  ['the thumb on two of five keys', [60, 62, 65, 69, 72], '11235', 'medium'],
  ['the thumb on a third', [60, 64, 67, 71, 74], '11235', 'large', 'more than a tone'],
  ['a seventh chord without 1', [71, 74, 77, 79], '2345', 'medium', 'a seventh chord'],
  ['an octave', [60, 72], '15', 'small'],
  ['a white octave by 4', [60, 72], '14', 'medium', 'by 1 and 4'],
  ['a white octave by 4, large hand', [60, 72], '14', 'large'],
  ['a black octave by 4', [61, 73], '14', 'medium'],
  ['a black octave by 3', [61, 73], '13', 'large', 'by 1 and 3'],
  ['an octave by 2 and 5', [60, 72], '25', 'large', 'by 2 and 5'],
  ['an octave chord', [60, 64, 67, 72], '1235', 'medium'],
  ['a strained octave chord', [60, 64, 67, 72], '1245', 'medium', 'strained'],
])('%s: %j by %s, %s', (_, keys, digits, span, rule) => {
  const touches = keys.map((key, nth) => ({ key, finger: Number(digits[nth]) as Finger }));
  const found = chordBreach(touches, span);
  if (rule === undefined) expect(found).toBeUndefined();
  else expect(found).toContain(rule);
});

it.each([
  ['fast repetition with one finger', [67, 67, 67], '222', 8, 'faster than 7'],
  ['4 over 5', [60, 62, 64], '254', 4, 'a long finger crosses'],
  ['3 over 4 on black keys', [64, 66, 67], '434', 4, ''],
  ['5 under 1', [60, 62], '51', 4, '5 crosses the thumb'],
  ['a slide from a black key', [66, 67], '33', 6, ''],
  ['a slide from a white key', [64, 65], '33', 6, 'one finger on two keys'],
  ['a slow slide', [64, 65], '33', 2, ''],
  ['slow repetition', [67, 67, 67], '222', 4, ''],
])('%s', (_, keys, digits, rate, rule) => {
  expect(rulesOf(general(melody('right', keys, digits, rate))).join()).toContain(rule);
  if (rule === '') expect(general(melody('right', keys, digits, rate))).toEqual([]);
});

it('a hand position: G F B F in the left hand', () => {
  const pivot = [43, 53, 47, 53];
  expect(position(melody('left', pivot, '5131'), 0, 4)).toEqual([]);
  expect(rulesOf(position(melody('left', pivot, '5151'), 0, 4)).join()).toContain('takes two keys');
});

it('equal bars', () => {
  const bar = [60, 64, 67, 64];
  const keys = [...bar, ...bar, ...bar];
  expect(barsAlike(melody('right', keys, '135313531353'), [0, 4, 8])).toEqual([]);
  expect(barsAlike(melody('right', keys, '135312421353'), [0, 4, 8])).toHaveLength(1);
});
