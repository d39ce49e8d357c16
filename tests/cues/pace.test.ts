import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { planCues } from '#core/cues/cues.js';
import { planMotion } from '#core/motion/motion.js';
import type { Hand } from '#core/score/model.js';
import { passages } from '../handbook/tables.js';
import { melody } from '../motion/lines.js';

/*
 * At slow tempo the forearm may follow every note; the quicker the notes, the fewer the cues, down to none: in every key.
 */

/** Quarter notes a minute, of eighth notes in 4/4. */
const TEMPI = [40, 70, 100, 120, 130, 140, 150, 160, 170, 180, 200, 220];
/** From this tempo, 3.3 notes a second, a figure that turns to and fro has settled. */
const SETTLED = 100;
const MEASURES = 4;
const NOTES = 8 * MEASURES;

interface Passage {
  readonly hand: Hand;
  readonly keys: readonly number[];
  readonly digits: string;
}

/** The figure over and over, on each of the twelve keys. */
const onAll = (hand: Hand, figure: readonly number[], digits: string): Passage[] =>
  Array.from({ length: 12 }, (_, semitones) => ({
    hand,
    keys: Array.from({ length: NOTES }, (_, at) => 48 + semitones + figure[at % figure.length]!),
    digits: digits.repeat(NOTES).slice(0, NOTES),
  }));

const scales = (hand: Hand): Passage[] =>
  passages(['major scale', 'harmonic minor scale'], hand).map(({ keys, forms }) => ({
    hand,
    // Without its last note, which the next time begins with.
    keys: [...keys.slice(0, -1), ...keys].slice(0, NOTES),
    digits: (forms[0]!.slice(0, -1) + forms[0]!).slice(0, NOTES),
  }));

const FIGURES: readonly (readonly [string, readonly Passage[]])[] = [
  ['Alberti basses, major, 5 1 3 1', onAll('left', [0, 7, 4, 7], '5131')],
  ['Alberti basses, minor, 5 1 2 1', onAll('left', [0, 7, 3, 7], '5121')],
  ['Alberti basses, first inversion, 5 1 3 1', onAll('left', [0, 8, 3, 8], '5131')],
  ['Alberti figures of the right hand, 1 5 3 5', onAll('right', [0, 7, 4, 7], '1535')],
  ['trills of a tone, 1 3', onAll('right', [0, 2], '13')],
  ['trills of a semitone, 2 3', onAll('right', [0, 1], '23')],
  ['tremolos of a third, 1 3', onAll('right', [0, 4], '13')],
  ['tremolos of a sixth, 5 1', onAll('left', [0, 9], '51')],
  ['tremolos of an octave, 5 1', onAll('left', [0, 12], '51')],
  ['scales of 24 keys, right hand', scales('right')],
  ['scales of 24 keys, left hand', scales('left')],
];

const hand = handModel();

/** Cues in or out a measure at `every`, by tempo. */
function cuesByTempo({ hand: side, keys, digits }: Passage): number[] {
  return TEMPI.map((tempo) => {
    const { line, fingers } = melody(side, keys, digits, 30 / tempo);
    const plan = planMotion(line, fingers, hand);
    const cues = planCues(line, plan, { layers: ['depth'], density: 'every', language: 'en' });
    return cues.length / MEASURES;
  });
}

describe('cues in or out a measure of eighth notes, as the tempo grows', () => {
  console.log(`quarters a minute: ${TEMPI.join(' ')}`);
  it.each(FIGURES)('fall, and end: %s', (name, all) => {
    const curves = all.map(cuesByTempo);
    const means = TEMPI.map((_, at) => curves.reduce((sum, curve) => sum + curve[at]!, 0) / curves.length);
    console.log(`${name}: ${means.map((mean) => mean.toFixed(2)).join(' ')}`);
    const isScale = name.startsWith('scales');
    // Fewer reversals can be larger ones: in two scales of 24 a few cues come back before they go.
    const [more, most] = isScale ? [0.1, 5] : [0, 1];
    for (let at = 1; at < means.length; at++) expect(means[at]).toBeLessThanOrEqual(means[at - 1]! + more);
    for (const curve of curves) {
      // The first and the last of the figures may ask for one more.
      for (let at = 1; at < curve.length; at++)
        expect(curve[at]).toBeLessThanOrEqual(curve[at - 1]! + most / MEASURES);
      const settled = curve.filter((_, at) => TEMPI[at]! >= SETTLED);
      // The way to where it settles. A scale brings ever new keys, and goes on a little longer.
      if (!isScale) expect(Math.max(...settled)).toBeLessThanOrEqual(2 / MEASURES);
      expect(curve.at(-1)).toBeLessThanOrEqual(2 / MEASURES);
    }
  });
});
