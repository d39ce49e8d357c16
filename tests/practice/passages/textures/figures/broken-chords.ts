import { buildLine, even } from '../../making/build-line.js';
import { chordOn, drawPace, drawSpan, invert, lowTonic, type Mode } from '../../making/pitches.js';
import { drawRoots, nearestChords } from '../../making/progression.js';
import type { Breach, Played } from '../../played.js';
import { general } from '../../rules/general-rules.js';
import { barsAlike, position } from '../../rules/position-rules.js';
import type { Texture } from '../texture.js';

/** Orders of the tones of a broken chord, from the lowest, by number of tones. */
const ORDERS: Readonly<Record<3 | 4, readonly (readonly number[])[]>> = {
  3: [
    [0, 1, 2, 1],
    [0, 1, 2],
    [2, 1, 0],
    [0, 2, 1, 2],
    [2, 1, 0, 1],
    [1, 2, 0, 2],
  ],
  4: [
    [0, 1, 2, 3],
    [3, 2, 1, 0],
    [0, 2, 1, 3],
    [0, 1, 2, 3, 2, 1],
    [0, 3, 1, 2],
  ],
};

/**
 * Broken triads and sevenths: one chord, chains of inversions, progressions. A teacher asks:
 * - within a group a key keeps its finger, and fingers ascend with the keys; the last note may already belong to the next
 *   group's place;
 * - a group has its chord's outer fingers: 1, and 5 or 4 (see `outer`);
 * - equal groups have equal digits, where they do not lie on the way up and on the way down.
 */
export const BROKEN_CHORDS: Texture = {
  name: 'broken chords',
  count: 72,
  blind: 62,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const kind = draw.pick(['triads', 'triads', 'triads with the octave', 'sevenths'] as const);
    const tones = kind === 'triads' ? 3 : 4;
    const root = kind === 'sevenths' ? chordOn(low, mode, draw.int(0, 4), 4) : chordOn(low, mode, 0, 3);
    const inversions = Array.from({ length: root.length + 1 }, (_, nth) => nth);
    const chain = [...inversions, ...inversions.toReversed().slice(1)].map((times) => invert(root, times));
    const close =
      round % 3 === 0
        ? chain
        : round % 3 === 1
          ? nearestChords(low, mode, drawRoots(draw), draw.int(0, 2), () => root.length)
          : Array.from({ length: 6 }, () => invert(root, draw.int(0, 1)));
    const chords = close.map((keys) => (kind === 'triads with the octave' ? [...keys, keys[0]! + 12] : keys));
    const order = draw.pick(ORDERS[tones]);
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3, 1 / 2], 11, 1.5);
    const keys = chords.flatMap((own) => order.map((tone) => own[tone]!));
    const starts = chords.map((_, nth) => nth * order.length);
    const line = buildLine(hand, even(keys, unit), { tempo, bar: order.length * unit });
    return {
      what: `broken ${kind}, ${['chain of inversions', 'progression', 'one or two chords'][round % 3]}, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line,
      judge: (played) => [
        ...general(played),
        ...starts.flatMap((from) => position(played, from, from + order.length - 1)),
        ...starts.flatMap((from) => outer(played, from, from + order.length)),
        ...(round % 3 === 0 ? [] : barsAlike(played, starts)),
      ],
    };
  },
};

/**
 * The outer fingers of a group: as its chord has them; where it is narrow, 2 may take the thumb's key and 3 the other
 * end's, since a broken chord is not down together and the hand often stays where the next one wants it.
 */
export function outer({ moments, span }: Played, from: number, to: number): Breach[] {
  const touches = new Map(moments.slice(from, to).map(({ struck: [own] }) => [own!.key, own!.finger]));
  const keys = [...touches.keys()].sort((a, b) => a - b);
  const digits = keys.map((key) => touches.get(key) ?? 0);
  const [low, high] = [digits[0]!, digits.at(-1)!];
  const width = keys.at(-1)! - keys[0]!;
  const least = width >= 12 && span === 'small' ? 5 : width >= 9 || keys.length >= 4 ? 4 : 3;
  const most = width <= 9 ? 2 : 1;
  if (low > most || low === 0 || high < least)
    return [{ rule: `a broken chord by ${digits.join(' ')}`, at: from }];
  return [];
}
