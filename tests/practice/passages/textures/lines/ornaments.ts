import type { Finger, Ornamented, Ornaments } from '#core/index.js';
import { isBlack } from '../../keys.js';
import { buildLine, type Strike } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general, isCrossed, steps } from '../../rules/general-rules.js';
import type { Texture } from '../texture.js';

type Sign = 'turn' | 'mordent' | 'inverted mordent' | 'trill';

/**
 * Fingers that can play a note under a sign (common practice), for its neighbours above and below as the right hand sees
 * them: what is to be played beside the note wants a neighbouring finger. 4 trills only shortly, with 5.
 */
function fits(finger: Finger, above: boolean, below: boolean, long: boolean): boolean {
  if (below && finger === 1) return false;
  return !(above && (finger === 5 || (long && finger === 4)));
}

/** Scale steps of melodies; the notes at odd places of a bar bear the signs. */
const MELODIES = [
  [0, 2, 4, 2, 3, 1, 2, 0],
  [4, 3, 2, 1, 0, 2, 1, 0],
  [0, 1, 2, 3, 4, 5, 6, 7],
  [7, 5, 4, 2, 3, 4, 2, 0],
] as const;

/** Signs over notes of a melody. A teacher asks that a neighbouring finger is free for what the sign adds. */
export const SIGNS: Texture = {
  name: 'ornaments',
  count: 72,
  blind: 94,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const sign = (['turn', 'mordent', 'trill', 'inverted mordent'] as const)[(round + draw.int(0, 3)) % 4]!;
    const melody = draw.pick(MELODIES);
    const { tempo, unit } = drawPace(draw, [1 / 2, 1], 2.5, 0.6);
    const strikes = melody.map((step, nth): Strike => ({ at: nth * unit, keys: [degree(low, mode, step)] }));
    const signed = new Map<number, Ornamented[]>();
    for (const nth of draw.chance(0.5) ? [2, 6] : [4])
      signed.set(nth, [ornamented(sign, low, mode, melody[nth]!)]);
    const ornaments: Ornaments = { keys: signed, tremolos: new Set() };
    return {
      what: `${sign} over notes of a melody, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, strikes, { tempo }),
      heed: { ornaments },
      judge: (played) => [...general(played), ...unfit(played, ornaments, sign)],
    };
  },
};

function ornamented(sign: Sign, low: number, mode: Mode, step: number): Ornamented {
  const [above, below] = [degree(low, mode, step + 1), degree(low, mode, step - 1)];
  const auxiliaries = sign === 'turn' ? [above, below] : sign === 'mordent' ? [below] : [above];
  return { key: degree(low, mode, step), auxiliaries, lasting: sign === 'trill' };
}

function unfit({ line, moments }: Played, { keys }: Ornaments, sign: Sign): Breach[] {
  return [...keys].flatMap(([at, [own]]): Breach[] => {
    const finger = moments[at]!.struck[0]!.finger;
    if (finger === null) return [];
    const outwards = (auxiliary: number) => auxiliary > own!.key === (line.hand === 'right');
    const [above, below] = [own!.auxiliaries.some(outwards), own!.auxiliaries.some((one) => !outwards(one))];
    return fits(finger, above, below, sign === 'trill') ? [] : [{ rule: `${finger} under a ${sign}`, at }];
  });
}

/**
 * Grace notes before notes of a melody: one from the neighbouring key, two in a slide, three as a turn. A teacher asks that
 * grace note and note have different fingers in the order of the keys; a finger may slide from a black key to the white key
 * beside it.
 */
export const GRACE_NOTES: Texture = {
  name: 'grace notes',
  count: 72,
  blind: 95,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const melody = draw.pick(MELODIES);
    const before = [
      draw.pick([[1], [-1]]),
      draw.pick([
        [-2, -1],
        [2, 1],
      ]),
      draw.pick([
        [1, 0, -1],
        [-1, 0, 1],
      ]),
    ][round % 3]!;
    const { tempo, unit } = drawPace(draw, [1 / 2, 1], 2.5, 0.6);
    const strikes = melody.flatMap((step, nth): Strike[] => {
      const at = nth * unit;
      const main = { at, keys: [degree(low, mode, step)] };
      if (nth % 4 !== 2) return [main];
      return [...before.map((way) => ({ at, keys: [degree(low, mode, step + way)], grace: true })), main];
    });
    return {
      what: `${before.length} grace notes before notes of a melody, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, strikes, { tempo }),
      judge: (played) => [...general(played), ...awkwardGraces(played)],
    };
  },
};

function awkwardGraces(played: Played): Breach[] {
  return steps(played)
    .filter(({ at }) => played.moments[at - 1]!.grace)
    .filter((step) => {
      if (step.from.finger === step.to.finger)
        return !(isBlack(step.from.key) && Math.abs(step.from.key - step.to.key) === 1);
      return isCrossed(step) && step.from.finger !== 1 && step.to.finger !== 1;
    })
    .map(({ at }) => ({ rule: 'a grace note against the order of the fingers', at }));
}
