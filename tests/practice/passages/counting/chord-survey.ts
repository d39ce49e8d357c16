import type { Hand } from '#core/index.js';
import type { Fingerer } from '../judge.js';
import { mirrorKey } from '../keys.js';
import { buildLine, even } from '../making/build-line.js';
import { invert, lowTonic, SEVENTHS, TRIADS } from '../making/pitches.js';
import { playedOf } from '../played.js';

/** One chord of close position, alone, on all twelve roots. */
export interface ChordSurvey {
  readonly name: string;
  readonly hand: Hand;
  /** From the lowest key, by root from C. */
  readonly digits: readonly string[];
  /** How many have 1 and 5 outside and a finger for every key. */
  readonly usual: number;
}

const INVERSIONS = ['root position', 'first inversion', 'second inversion', 'third inversion'];

/** Triads and sevenths of every quality in every inversion and key, both hands, medium. */
export function surveyChords(finger: Fingerer): ChordSurvey[] {
  const qualities = [
    ...Object.entries(TRIADS).map(([name, tones]) => [`${name} triad`, tones] as const),
    ...Object.entries(SEVENTHS).map(([name, tones]) => [`${name} seventh`, tones] as const),
  ];
  return (['right', 'left'] as const).flatMap((hand) =>
    qualities.flatMap(([quality, tones]) =>
      tones.map((_, inversion): ChordSurvey => {
        const digits = Array.from({ length: 12 }, (_, tonic) => {
          const root = tones.map((tone) => lowTonic(tonic, hand) + tone);
          return alone(hand, invert(root, inversion), finger);
        });
        const usual = digits.filter((own) => {
          const seen = hand === 'right' ? own : [...own].reverse().join('');
          return seen.startsWith('1') && seen.endsWith('5') && new Set(own).size === tones.length;
        });
        return { name: `${quality}, ${INVERSIONS[inversion]}`, hand, digits, usual: usual.length };
      }),
    ),
  );
}

function alone(hand: Hand, keys: readonly number[], finger: Fingerer): string {
  const line = buildLine(hand, even([keys], 1), { tempo: 72 });
  const [moment] = playedOf(line, finger(line, 'medium', {}), 'medium').moments;
  const low = (key: number) => (hand === 'left' ? mirrorKey(key) : key);
  return [...moment!.struck]
    .sort((a, b) => low(a.key) - low(b.key))
    .map((touch) => touch.finger ?? '-')
    .join('');
}
