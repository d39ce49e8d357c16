import { isBlack } from '../../keys.js';
import { buildLine, even } from '../../making/build-line.js';
import { drawPace, drawSpan, lowTonic } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general } from '../../rules/general-rules.js';
import { digitsByKey, octavesAlike, wayBackAlike } from '../../rules/run-rules.js';
import type { Texture } from '../texture.js';

/**
 * Chromatic runs. Handbooks print three fingerings (common practice): 3 on every black key, 1 on white and 2 on the
 * second of two whites; 2 or 3 on black keys with 1 on white and 1 2 3 (4) groups; groups of four fingers for speed. A
 * teacher asks of any of them:
 * - the thumb plays white keys only;
 * - every octave has the same digits, apart from the ends;
 * - the way back has the digits of the way there, apart from the turn, so that no two systems are mixed;
 * - no finger slides; the fingers of a group follow each other: only 1 3 may leave out a finger, at a black key.
 */
export const CHROMATIC: Texture = {
  name: 'chromatic runs',
  count: 72,
  blind: 58,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const length = round === 0 ? 13 : draw.pick([8, 13, 25, 25]);
    const up = Array.from({ length }, (_, nth) => low + nth);
    const kind = draw.pick(['up', 'down', 'up and down'] as const);
    const keys =
      kind === 'up' ? up : kind === 'down' ? up.toReversed() : [...up, ...up.toReversed().slice(1)];
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3, 1 / 2], 12, 2);
    return {
      what: `chromatic, ${length} keys ${kind}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: judgeChromatic,
    };
  },
};

export function judgeChromatic(played: Played): Breach[] {
  return [
    ...general(played),
    ...thumbOnBlack(played),
    ...skips(played),
    ...octavesAlike(played, 'thumb', 2),
    ...wayBackAlike(played, 'thumb'),
    ...mixed(played),
  ];
}

function thumbOnBlack({ moments }: Played): Breach[] {
  return moments
    .filter(({ struck: [own] }) => own!.finger === 1 && isBlack(own!.key))
    .map(({ index }) => ({ rule: 'the thumb on a black key of a chromatic run', at: index }));
}

function skips({ moments }: Played): Breach[] {
  return moments.flatMap(({ struck: [own], index }): Breach[] => {
    const before = moments[index - 1]?.struck[0];
    if (!before || before.finger === null || own!.finger === null) return [];
    const [low, high] = [before, own!].sort((a, b) => a.finger! - b.finger!) as [
      typeof before,
      typeof before,
    ];
    const apart = high.finger! - low.finger!;
    if (apart === 0) return [{ rule: `${own!.finger} slides`, at: index }];
    if (apart <= 1 || (low.finger === 1 && apart === 2 && isBlack(high.key))) return [];
    // Passing over or under the thumb: 3 or 4 beside 1.
    const crossed = low.finger === 1 && high.key < low.key;
    return crossed && apart <= 3
      ? []
      : [{ rule: `${before.finger} ${own!.finger} on neighbouring keys`, at: index }];
  });
}

/** Between two thumbs, a black key alone has 2 throughout or 3 throughout, whatever the direction. */
function mixed(played: Played): Breach[] {
  const alone = played.moments.filter(({ struck: [own], index }) => {
    const [before, after] = [played.moments[index - 1]?.struck[0], played.moments[index + 1]?.struck[0]];
    return isBlack(own!.key) && before?.finger === 1 && after?.finger === 1 && before.key !== after.key;
  });
  const fingers = digitsByKey(alone);
  return fingers.size > 1 ? [{ rule: '1 2 1 and 1 3 1 mixed', at: alone[0]!.index }] : [];
}
