import { isBlack } from '../../keys.js';
import { buildLine, even } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { chordBreach } from '../../rules/chord-rules.js';
import { general } from '../../rules/general-rules.js';
import type { Texture } from '../texture.js';

/** Pairs that no editor prints for the interval, fingers ascending. */
const NOT_THIRDS = ['45', '34', '15'];
const NOT_SIXTHS = ['12', '23', '34', '45', '24', '35'];

/**
 * Scales and fragments in thirds and sixths. A teacher asks:
 * - thirds by 1 3, 2 4, 3 5 and their neighbours, never 4 5, 3 4 or 1 5; sixths with 1 or 5 outside;
 * - in fast thirds (more than 4 a second) no pair twice in a row from white keys to white keys.
 */
export const DOUBLE_NOTES: Texture = {
  name: 'thirds and sixths',
  count: 72,
  blind: 94,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'major', 'harmonic minor']);
    const interval = round % 3 === 2 ? 5 : 2;
    const walk = draw.pick([
      [0, 1, 2, 3, 4, 3, 2, 1, 0],
      [0, 1, 2, 3, 4, 5, 6, 7],
      [7, 6, 5, 4, 3, 2, 1, 0],
      [0, 1, 2, 1, 0, 1, 2, 3, 4],
      [4, 2, 3, 1, 2, 0],
    ]);
    const keys = walk.map((nth) => [degree(low, mode, nth), degree(low, mode, nth + interval)]);
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 2, 1], 8, 1);
    return {
      what: `${interval === 2 ? 'thirds' : 'sixths'} ${walk.join('')}, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: (played) => [
        ...general(played),
        ...pairs(played, interval === 2),
        ...fastThirds(played, interval === 2),
      ],
    };
  },
};

function pairs({ moments, span }: Played, thirds: boolean): Breach[] {
  return moments.flatMap(({ struck, index }): Breach[] => {
    const digits = struck.map(({ finger }) => finger ?? '-').join('');
    const bad =
      (thirds ? NOT_THIRDS : NOT_SIXTHS).includes(digits) || chordBreach(struck, span) !== undefined;
    return bad ? [{ rule: `${thirds ? 'a third' : 'a sixth'} by ${digits}`, at: index }] : [];
  });
}

function fastThirds({ moments }: Played, thirds: boolean): Breach[] {
  if (!thirds) return [];
  return moments.flatMap(({ struck, index, seconds }): Breach[] => {
    const before = moments[index - 1];
    if (!before || seconds > 0.25) return [];
    const same = struck.every(({ finger }, nth) => finger === before.struck[nth]!.finger);
    const white = [...struck, ...before.struck].every(({ key }) => !isBlack(key));
    return same && white && struck[0]!.key !== before.struck[0]!.key
      ? [{ rule: 'a pair of fingers slides from white keys to white ones', at: index }]
      : [];
  });
}
