import { compare, type Finger, fingerLine, type Line, type Movement } from '@handline/core';
import type { Shown } from './shown.js';

/** The chosen finger beside the next best one. */
export interface Why {
  /** The other finger; absent where the hand has none for the key. */
  readonly other?: Finger;
  /** What the whole line would cost more with it by what fingers are chosen by, mm equivalents; below 0 where less. */
  readonly cost?: number;
  /** Movement of the whole line with it less that of now, mm by kind. */
  readonly kinds?: Movement;
}

/**
 * Works the line out anew with everything else as printed by the user and the score: freely at this key, and with the next
 * best finger held there.
 */
export function whyOf(shown: Shown, nth: number, slice: number, key: number): Why {
  const { line, hand, context } = shown.open(nth);
  const printed = shown.lines[nth]!.fingers;
  const now = printed.slices[slice]!.struck[key];
  if (!now) return {};
  const forced = (finger: Finger) =>
    fingerLine(withFinger(line, slice, key, finger), hand, context).fingering;
  const free = fingerLine(withFinger(line, slice, key), hand, { ...context, nextBest: true });
  const best = free.fingering.slices[slice]!.struck[key];
  const next = free.nextBest![slice]![key];
  const isBetter = best !== null && best !== now;
  const other = isBetter ? best : next?.finger;
  if (other === undefined) return {};
  const cost = isBetter ? free.fingering.cost - forced(now).cost : next!.cost;
  const { first, second } = compare(line, hand, printed, forced(other), context);
  return { other, cost, kinds: difference(first, second) };
}

function difference(first: Movement, second: Movement): Movement {
  const kinds = Object.keys(first) as (keyof Movement)[];
  return Object.fromEntries(kinds.map((kind) => [kind, second[kind] - first[kind]])) as Movement;
}

/** The line with another demand, or none, at one key. */
function withFinger(line: Line, slice: number, key: number, finger?: Finger): Line {
  const slices = line.slices.map((own) => {
    if (own.index !== slice) return own;
    const struck = own.struck.map((one, nth) => {
      if (nth !== key) return one;
      const { fixed: _, ...open } = one;
      return finger === undefined ? open : { ...open, fixed: finger };
    });
    return { ...own, struck };
  });
  return { ...line, slices };
}
