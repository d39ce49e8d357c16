import { buildLine, even } from '../../making/build-line.js';
import { drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import { drawRoots, nearestChords } from '../../making/progression.js';
import { general } from '../../rules/general-rules.js';
import { barsAlike, position } from '../../rules/position-rules.js';
import type { Texture } from '../texture.js';
import { outer } from './broken-chords.js';

/** Orders of three tones, from the lowest. */
const ORDERS = [
  [0, 2, 1, 2],
  [0, 2, 1, 2],
  [0, 1, 2, 1],
  [0, 2, 0, 2, 1, 2],
  [0, 1, 2, 0, 1, 2],
  [0, 2, 1, 2, 0, 2, 1, 2],
] as const;

/**
 * Alberti basses, mostly in the left hand, of triads and three-note sevenths. A teacher asks:
 * - each half-bar lies under the hand, a key keeping its finger; the last note may already belong to the next place;
 * - 1 and 5 outside, where the chord is narrow also 2 and 4 (see `outer`);
 * - equal bars have equal digits.
 */
export const ALBERTI: Texture = {
  name: 'Alberti basses',
  count: 72,
  blind: 72,
  draw: ({ tonic, hand, round }, draw) => {
    const side = round === 2 ? hand : 'left';
    const low = lowTonic(tonic, side);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const order = draw.pick(ORDERS);
    const roots = drawRoots(draw);
    const close = nearestChords(low, mode, roots, draw.pick([0, 0, 1, 2]), (root) => (root === 4 ? 4 : 3));
    // Of a dominant seventh the inner tone farthest from the bass is left out: B F G, D F G and their like.
    const chords = close.map((keys) => (keys.length === 4 ? [keys[0]!, keys[2]!, keys[3]!] : keys));
    const times = draw.pick([1, 2, 2, 4]);
    const halves = chords.flatMap((own) => Array.from({ length: times }, () => own));
    const keys = halves.flatMap((own) => order.map((tone) => own[tone]!));
    const starts = halves.map((_, nth) => nth * order.length);
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 2], 11, 1.5);
    return {
      what: `Alberti bass ${order.join('')}, each chord ${times} times, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(side, even(keys, unit), { tempo, bar: order.length * unit }),
      judge: (played) => [
        ...general(played),
        ...starts.flatMap((from) => position(played, from, from + order.length - 1)),
        ...starts.flatMap((from) => outer(played, from, from + order.length)),
        ...barsAlike(played, starts),
      ],
    };
  },
};
