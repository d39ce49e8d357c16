import type { Criterion } from '../../options/options.js';
import { atLeast, corrected } from './corrections.js';
import { movementTables } from './tables/movement/tables.js';
import { decodeTable, type Table } from './tables/table.js';
import { usageTables } from './tables/usage/tables.js';
import { FEATURES, OFFSETS, TERMS } from './terms/terms.js';

/**
 * Weights of all features, in mm equivalents. They are fitted by `tests/fitting` to the digits that editors printed in
 * public-domain editions (145 scores, 23,200 digits; see `docs/fingering.md`); only numbers are shipped, no passage.
 */
export const WEIGHTS: Readonly<Record<Criterion, Float64Array>> = {
  usage: judging('usage', fitted(usageTables)),
  movement: judging('movement', fitted(movementTables)),
};

/** Fitted weights as they judge: none below its least; for usage, what the fit overrates is charged. */
export function judging(measure: Criterion, weights: Float64Array): Float64Array {
  return measure === 'usage' ? corrected(weights) : atLeast(weights);
}

/** Stated weights stand as they are, a term without a table weighs nothing. */
function fitted(tables: readonly Table[]): Float64Array {
  const weights = new Float64Array(FEATURES);
  TERMS.forEach(({ name, blocks, stated }, nth) => {
    const table = tables.find(({ term }) => term === name);
    const own = stated ?? (table && decodeTable(table, blocks));
    if (own) weights.set(own, OFFSETS[nth]);
  });
  return weights;
}
