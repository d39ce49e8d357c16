import { buildLine, even } from '../../making/build-line.js';
import { chordOn, degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { chords } from '../../rules/chord-rules.js';
import { general, isCrossed, steps } from '../../rules/general-rules.js';
import { barsAlike, position } from '../../rules/position-rules.js';
import type { Texture } from '../texture.js';

/** Scale steps of a leap and back, from the lowest: a pivot stays under the hand. */
const PIVOTS = [
  [0, 6, 2, 6],
  [0, 5, 2, 5],
  [0, 7, 4, 7],
  [5, 0, 3, 0],
  [6, 0, 2, 0],
] as const;
/** Melodies of steps with leaps of a sixth to a tenth. */
const MELODIES = [
  [0, 1, 2, 9, 8, 7, 2, 1, 0],
  [4, 5, 4, 11, 10, 9, 4, 3, 4],
  [0, 7, 6, 5, 0, 1, 8, 7, 6, 0],
  [2, 1, 0, 5, 4, 3, 8, 7, 6, 4],
] as const;

/**
 * Leaps: a pivot within an octave, melodies with leaps, a low note and a chord far above. A teacher asks:
 * - in a leap of a fifth to an octave that is quick (less than 0.35 s) fingers follow the keys: up to a higher finger;
 * - a figure that stays under the hand keeps its fingers, and equal bars are alike.
 */
export const LEAPS: Texture = {
  name: 'leaps',
  count: 72,
  blind: 77,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const start = draw.int(0, 4);
    const kind = round % 3;
    const pivot = draw.pick(PIVOTS);
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 2, 1], kind === 2 ? 5 : 9, 1);
    const keys: (number | number[])[] = [
      () => Array.from({ length: 4 }, () => pivot.map((step) => degree(low, mode, start + step))).flat(),
      () => draw.pick(MELODIES).map((step) => degree(low, mode, start + step - 2)),
      () =>
        [0, 4, 0, 3, 0].flatMap((root) => [
          degree(low - 12, mode, root),
          chordOn(low, mode, root, 3),
          degree(low - 12, mode, root - 3),
          chordOn(low, mode, root, 3),
        ]),
    ][kind]!();
    return {
      what: `${['pivot under the hand', 'melody with leaps', 'low note and chord'][kind]}, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo, bar: 4 * unit }),
      judge: (played) => [
        ...general(played),
        ...(kind === 2 ? chords(played) : quickLeaps(played)),
        ...(kind === 0 ? [...position(played, 0, 16), ...barsAlike(played, [0, 4, 8, 12])] : []),
      ],
    };
  },
};

function quickLeaps(played: Played): Breach[] {
  return steps(played)
    .filter((step) => {
      const way = Math.abs(step.to.key - step.from.key);
      return step.seconds < 0.35 && way >= 7 && way <= 12 && isCrossed(step);
    })
    .map(({ at }) => ({ rule: 'a quick leap against the order of the fingers', at }));
}
