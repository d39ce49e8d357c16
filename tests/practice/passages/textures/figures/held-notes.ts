import { buildLine, even, type Strike } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import { general } from '../../rules/general-rules.js';
import { barsAlike, measuresOf, position } from '../../rules/position-rules.js';
import type { Texture } from '../texture.js';

/** Scale steps that move, from the lowest of them, while a note is held. */
const MOVES: readonly (readonly number[])[] = [
  [0, 2, 1, 2],
  [0, 1, 2, 1],
  [0, 2, 0, 2],
  [2, 1, 0, 1],
  [0, 1, 0, 1],
  [0, 1, 2, 3, 2, 1],
  [0, 2, 1, 3],
  [0, 2, 4, 2],
];

/**
 * A note held above or below moving ones, all within an octave, so that five fingers lie over the keys. A teacher asks:
 * - a key that the hand covers belongs to the finger above it, as long as the note is held: a key that returns keeps its
 *   finger, no finger takes two keys, fingers ascend with the keys;
 * - bars that return have their digits.
 */
export const HELD_NOTES: Texture = {
  name: 'held notes',
  count: 72,
  blind: 48,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3, 1 / 2], 9, 1);
    const above = draw.chance(0.5);
    const moves = draw.pick(MOVES);
    const wide = Math.max(...moves);
    const gap = draw.int(1, Math.max(1, 6 - wide));
    const start = draw.int(0, 4);
    const times = draw.pick([1, 2]);
    const bars = round % 3 === 0 ? [0] : round % 3 === 1 ? [0, 0, 1, 0] : [0, -1, 0, 1];
    const length = moves.length * times;
    const strikes = bars.flatMap((shift, nth): Strike[] => {
      const at = nth * length * unit;
      const first = start + shift + (above ? 0 : gap);
      const moving = Array.from({ length: times }, () => moves)
        .flat()
        .map((step) => degree(low, mode, first + step));
      const stays = above ? first + wide + gap : start + shift;
      const rest = even(moving, unit, at);
      return [
        { at, keys: [degree(low, mode, stays)], length: length * unit },
        ...rest.map((strike) => ({ ...strike, length: unit })),
      ];
    });
    const line = buildLine(hand, strikes, { tempo, bar: length * unit });
    return {
      what: `a note held ${above ? 'above' : 'below'} moving ones, ${bars.length} bars, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line,
      judge: (played) => {
        const starts = measuresOf(played);
        const places = starts.flatMap((from, nth) => {
          const to = starts[nth + 1] ?? played.moments.length;
          const keys = played.moments
            .slice(from, to)
            .flatMap(({ struck, held }) => [...struck, ...held].map(({ key }) => key));
          const covered = Math.max(...keys) - Math.min(...keys) <= 12;
          return covered ? position(played, from, to) : [];
        });
        return [...general(played), ...places, ...barsAlike(played, starts)];
      },
    };
  },
};
