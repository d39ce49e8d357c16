import { isBlack } from '../../keys.js';
import { buildLine, even } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general } from '../../rules/general-rules.js';
import { turnsOfThumb } from '../../rules/run-rules.js';
import type { Texture } from '../texture.js';

const PATTERNS = [
  [0, 1, 2, 3, 4, 3, 2, 1, 0],
  [4, 3, 2, 1, 0, 1, 2, 3, 4],
  [0, 2, 1, 3, 2, 4, 3, 1, 0],
  [0, 2, 4, 2, 0, 1, 3, 1, 0],
  [0, 1, 2, 0, 1, 2, 3, 4, 0],
  [4, 2, 3, 1, 2, 0, 1, 4, 0],
  [0, 1, 2, 3, 4],
] as const;

/**
 * Patterns of five neighbouring notes of a scale, a third of them on white keys alone. A teacher asks for 1 2 3 4 5 in place where the outer keys are white;
 * where one is black the thumb may pass once on the way.
 */
export const FIVE_FINGERS: Texture = {
  name: 'five-finger patterns',
  count: 72,
  blind: 94,
  draw: ({ tonic, hand, round }, draw) => {
    const white = round % 3 === 0;
    const low = lowTonic(white ? 0 : tonic, hand);
    const mode: Mode = white ? 'major' : draw.pick(['major', 'natural minor']);
    const pattern = draw.pick(PATTERNS);
    const start = white ? tonic % 7 : draw.pick([0, 0, 0, 1, 3, 4]);
    const keys = pattern.map((step) => degree(low, mode, start + step));
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 2, 1], 12, 1);
    return {
      what: `five-finger pattern ${pattern.join('')} from degree ${start + 1}, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: (played) => [...general(played), ...inPlace(played)],
    };
  },
};

function inPlace(played: Played): Breach[] {
  const keys = [...new Set(played.moments.map(({ struck: [own] }) => own!.key))].sort((a, b) => a - b);
  if (isBlack(keys[0]!) || isBlack(keys.at(-1)!)) {
    const turns = turnsOfThumb(played);
    return turns.length > 2 ? [{ rule: 'the thumb passes again and again', at: turns[2]!.index }] : [];
  }
  return played.moments.flatMap(({ struck: [own], index }): Breach[] => {
    const due = keys.indexOf(own!.key) + 1;
    return own!.finger === due
      ? []
      : [{ rule: `${own!.finger} for ${due} in a five-finger position`, at: index }];
  });
}
