import type { Line } from '../../hands/line.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';
import type { Use } from '../fingers-in-use.js';
import { GRID_SIZE, LEAST_DEPTH, TipTable } from '../tips.js';
import { movesInto } from './forearm.js';
import { GRAIN, leastPath } from './search.js';

const SIZE = GRID_SIZE;

/**
 * Forearm depth of every slice in whole mm: the exact minimum over the whole line of fingertip discomfort (all fingers
 * in use, held ones included) plus forearm travel, among the paths that the forearm can follow. Of equal plans one that
 * ends furthest out.
 */
export function planDepth(line: Line, uses: readonly (readonly Use[])[], tips: TipTable): readonly number[] {
  const cache = new Map<number, Float64Array>();
  const rows: Float64Array[] = [];
  for (const inUse of uses) rows.push(discomfortRow(inUse, tips, cache));
  return leastPath(rows, movesInto(line.slices)).map(depthOf);
}

function depthOf(step: number): number {
  return step + LEAST_DEPTH;
}

/** Discomfort of all fingers in use by grid step; the same fingers on the same pitch classes share one row. */
function discomfortRow(uses: readonly Use[], tips: TipTable, cache: Map<number, Float64Array>): Float64Array {
  let id = 0;
  for (const { finger, key } of uses) id = id * TipTable.IDS + TipTable.id(finger, key);
  const known = cache.get(id);
  if (known) return known;
  const row = new Float64Array(SIZE);
  for (const { finger, key } of uses) {
    const { discomforts } = tips.row(finger, key);
    for (let step = 0; step < SIZE; step++) row[step]! += toFixedPoint(discomforts[step]!, GRAIN);
  }
  // More than eight fingers, as where two hold one key, have an id beyond the exact integers.
  if (Number.isSafeInteger(id)) cache.set(id, row);
  return row;
}
