import { compare, type Movement } from '@handline/core';
import type { Shown } from './shown.js';

/** A state beside the one before it. */
export interface StateCompared {
  /** Movement before and now, mm by kind, of all hands. */
  readonly before: Movement;
  readonly now: Movement;
  /** Where another finger plays. */
  readonly changes: readonly {
    readonly line: number;
    readonly slice: number;
    readonly key: number;
    readonly from: number | null;
    readonly to: number | null;
  }[];
}

/** Both with the hand of now. */
export function comparedWith(now: Shown, before: Shown): StateCompared {
  const sums: { before?: Movement; now?: Movement } = {};
  const changes: StateCompared['changes'][number][] = [];
  now.lines.forEach(({ fingers }, nth) => {
    const { line, hand, context } = now.open(nth);
    const old = before.lines[nth]!.fingers;
    const { first, second } = compare(line, hand, old, fingers, context);
    sums.before = sum(sums.before, first);
    sums.now = sum(sums.now, second);
    fingers.slices.forEach(({ struck }, slice) => {
      struck.forEach((to, key) => {
        const from = old.slices[slice]?.struck[key] ?? null;
        if (from !== to) changes.push({ line: nth, slice, key, from, to });
      });
    });
  });
  return { before: sums.before!, now: sums.now!, changes };
}

function sum(one: Movement | undefined, other: Movement): Movement {
  const kinds = Object.keys(other) as (keyof Movement)[];
  return Object.fromEntries(kinds.map((kind) => [kind, (one?.[kind] ?? 0) + other[kind]])) as Movement;
}
