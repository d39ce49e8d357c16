import { buildLine, type Strike } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, MODES, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general } from '../../rules/general-rules.js';
import { legs, octavesAlike, wayBackAlike } from '../../rules/run-rules.js';
import type { Texture } from '../texture.js';
import { passes, thumbOnBlack } from './arpeggios.js';

/**
 * Scales of every mode over one to four octaves. A teacher asks, whatever the group:
 * - the thumb passes at most twice an octave and never plays a black key;
 * - between two thumbs lie two or three fingers: groups of three and four, none of two or five;
 * - every octave has the same digits apart from the ends, and the way back those of the way there where it
 *   has the same notes.
 */
export const SCALES: Texture = {
  name: 'scales',
  count: 96,
  blind: 82,
  draw: ({ tonic, hand, round }, draw) => {
    const mode = (Object.keys(MODES) as Mode[])[(round + draw.int(0, 3)) % 4]!;
    const octaves = draw.pick([1, 2, 2, 3, 4]);
    const low = lowTonic(tonic, hand) - (octaves > 2 ? 12 : 0);
    const kind = draw.pick(['up', 'down', 'up and down', 'up and down'] as const);
    const climb = Array.from({ length: 7 * octaves + 1 }, (_, nth) => nth);
    const back = climb.toReversed();
    const steps = kind === 'up' ? climb : kind === 'down' ? back : [...climb, ...back.slice(1)];
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3, 1 / 2], 13, 2);
    const strikes = steps.map((step, nth): Strike => {
      const falls = kind === 'down' || (kind === 'up and down' && nth > 7 * octaves);
      const own = mode === 'melodic minor' && falls ? 'natural minor' : mode;
      return { at: nth * unit, keys: [degree(low, own, step)], diatonic: 28 + step };
    });
    return {
      what: `${mode} scale, ${octaves} octaves ${kind}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, strikes, { tempo }),
      judge: (played) => judgeScale(played, octaves, mode !== 'melodic minor'),
    };
  },
};

/** @param sameBack the way back, where there is one, has the same notes */
export function judgeScale(played: Played, octaves: number, sameBack: boolean): Breach[] {
  return [
    ...general(played),
    ...thumbOnBlack(played),
    ...passes(played, 2 * octaves * legs(played).length),
    ...groups(played),
    ...octavesAlike(played, 'thumb'),
    ...(sameBack ? wayBackAlike(played, 'thumb') : []),
  ];
}

function groups(played: Played): Breach[] {
  return legs(played).flatMap((leg) => {
    const thumbs = leg.flatMap(({ struck: [own] }, nth) => (own!.finger === 1 ? [nth] : []));
    return thumbs.slice(1).flatMap((thumb, nth): Breach[] => {
      const size = thumb - thumbs[nth]!;
      return size < 3 || size > 4 ? [{ rule: `a group of ${size}`, at: leg[thumb]!.index }] : [];
    });
  });
}
