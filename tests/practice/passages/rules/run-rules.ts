import type { Breach, Moment, Played } from '../played.js';

/** Fingers in use at single notes. */
export function digitsByKey(moments: readonly Moment[]): Set<number | null> {
  return new Set(moments.map(({ struck }) => struck[0]!.finger));
}

/**
 * Every octave of a run has the same digits (common practice), apart from its ends: before the first thumb, on the
 * thumb's side, and on the last keys of the other side the hand begins and ends as it likes.
 *
 * @param outer keys at the end away from the thumb that may differ; `thumb`: all those beyond the last thumb
 * @param near keys at the thumb's end that may differ in any case
 */
export function octavesAlike(played: Played, outer: number | 'thumb', near = 1): Breach[] {
  return legs(played).flatMap((leg) => {
    const fingers = new Map<number, number | null>();
    return inner(leg, outer, near).flatMap(({ struck: [own], index }): Breach[] => {
      const place = own!.key % 12;
      const first = fingers.get(place);
      if (first === undefined) fingers.set(place, own!.finger);
      return first === undefined || first === own!.finger
        ? []
        : [{ rule: `one octave has ${first}, another ${own!.finger}`, at: index }];
    });
  });
}

/** The way back has the digits of the way there (common practice), apart from its ends. */
export function wayBackAlike(played: Played, outer: number | 'thumb'): Breach[] {
  const [there, back] = legs(played);
  if (!there || !back) return [];
  const fingers = new Map(inner(there, outer).map(({ struck: [own] }) => [own!.key, own!.finger]));
  return inner(back, outer).flatMap(({ struck: [own], index }): Breach[] => {
    const first = fingers.get(own!.key);
    return first === undefined || first === own!.finger
      ? []
      : [{ rule: `${first} on the way there, ${own!.finger} on the way back`, at: index }];
  });
}

/** A leg without its free ends. */
function inner(leg: readonly Moment[], outer: number | 'thumb', near = 0): readonly Moment[] {
  const climbing = leg[0]!.struck[0]!.key < leg.at(-1)!.struck[0]!.key ? leg : leg.toReversed();
  const isThumb = ({ struck: [own] }: Moment) => own!.finger === 1;
  const first = climbing.findIndex(isThumb);
  const last = outer === 'thumb' ? climbing.findLastIndex(isThumb) + 1 : climbing.length - outer;
  return climbing.slice(Math.max(near, first), last);
}

/** The stretches of single notes that go one way; a turn belongs to both. */
export function legs({ moments }: Played): Moment[][] {
  const found: Moment[][] = [];
  let leg: Moment[] = [];
  let way = 0;
  for (const moment of moments) {
    const before = leg.at(-1);
    const onward = before ? Math.sign(moment.struck[0]!.key - before.struck[0]!.key) : 0;
    if (before && way !== 0 && onward !== way) {
      found.push(leg);
      leg = [before];
    }
    if (before) way = onward;
    leg.push(moment);
  }
  found.push(leg);
  return found;
}

/** Notes where the thumb passes under or a finger over it. */
export function turnsOfThumb({ moments }: Played): Moment[] {
  return moments.filter(({ struck: [own], index }) => {
    const before = moments[index - 1]?.struck[0];
    if (!before || before.finger === null || own!.finger === null) return false;
    return before.key < own!.key !== before.finger < own!.finger && before.key !== own!.key;
  });
}
