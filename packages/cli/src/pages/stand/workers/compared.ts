import { compare, type Movement, sumOfMovements } from '@handline/core';
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
  const movements = { before: [] as Movement[], now: [] as Movement[] };
  const changes: StateCompared['changes'][number][] = [];
  now.lines.forEach(({ fingers }, nth) => {
    const { line, hand, context } = now.open(nth);
    const old = before.lines[nth]!.fingers;
    const { first, second } = compare(line, hand, old, fingers, context);
    movements.before.push(first);
    movements.now.push(second);
    fingers.slices.forEach(({ struck }, slice) => {
      struck.forEach((to, key) => {
        const from = old.slices[slice]?.struck[key] ?? null;
        if (from !== to) changes.push({ line: nth, slice, key, from, to });
      });
    });
  });
  return {
    before: sumOfMovements(movements.before),
    now: sumOfMovements(movements.now),
    changes,
  };
}
