import { buildLine, even } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general } from '../../rules/general-rules.js';
import type { Texture } from '../texture.js';

/**
 * A note repeated, alone or in groups that walk along a scale. A teacher asks, beside the rules of every texture, that a
 * fast repetition goes on changing fingers (no finger twice in a row faster than 7 a second), and that 5 and 1 do not
 * follow each other more often than a group of five fingers makes needful.
 */
export const REPEATED_NOTES: Texture = {
  name: 'fast repeated notes',
  count: 72,
  blind: 36,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'natural minor']);
    const times = draw.pick([2, 3, 4, 4, 6, 8]);
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3], 13, draw.chance(0.5) ? 3 : 7);
    const walk =
      round % 3 === 0
        ? [0]
        : round % 3 === 1
          ? [0, 1, 2, 3, 4]
          : draw.pick([
              [4, 3, 2, 1, 0],
              [0, 2, 4, 2, 0],
            ]);
    const each = walk.length === 1 ? 16 : times;
    const keys = walk.flatMap((nth) => Array.from({ length: each }, () => degree(low, mode, nth)));
    return {
      what: walk.length === 1 ? 'one note 16 times' : `notes of a scale, each ${each} times`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: (played) => [...general(played), ...awkward(played)],
    };
  },
};

function awkward({ moments }: Played): Breach[] {
  return moments.flatMap(({ struck, index }): Breach[] => {
    const before = moments[index - 1]?.struck[0];
    const own = struck[0]!;
    if (!before || before.key !== own.key || before.finger === null || own.finger === null) return [];
    return Math.abs(before.finger - own.finger) === 4
      ? [{ rule: '5 and 1 follow each other on a repeated key', at: index }]
      : [];
  });
}
