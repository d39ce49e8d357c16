import type { Breach, Moment, Played } from './played.js';

/** Fingers in use at single notes. */
export function digitsByKey(moments: readonly Moment[]): Set<number | null> {
  return new Set(moments.map(({ struck }) => struck[0]!.finger));
}

/**
 * Every octave of a run has the same digits (common practice), apart from the notes next to its ends and turns: there the
 * hand begins and ends as it likes.
 *
 * @param ends notes at each end or turn that are left out
 * @param before digits before the first thumb, on the thumb's side, may differ too
 */
export function octavesAlike(played: Played, ends: number): Breach[] {
  return legs(played).flatMap((leg) => {
    const inner = leg.filter((_, nth) => nth >= ends && nth < leg.length - ends);
    const fingers = new Map<number, number | null>();
    return inner.flatMap(({ struck: [own], index }): Breach[] => {
      const place = own!.key % 12;
      const first = fingers.get(place);
      if (first === undefined) fingers.set(place, own!.finger);
      return first === undefined || first === own!.finger
        ? []
        : [{ rule: `one octave has ${first}, another ${own!.finger}`, at: index }];
    });
  });
}

/** The way back has the digits of the way there (common practice), apart from the notes next to the turn and the ends. */
export function wayBackAlike({ moments }: Played, ends: number): Breach[] {
  const turn = (moments.length - 1) / 2;
  return moments.slice(turn + 1).flatMap(({ struck: [own], index }): Breach[] => {
    const there = 2 * turn - index;
    if (there < ends || there > turn - ends) return [];
    const finger = moments[there]!.struck[0]!.finger;
    return finger === own!.finger
      ? []
      : [{ rule: `${finger} on the way there, ${own!.finger} on the way back`, at: index }];
  });
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
