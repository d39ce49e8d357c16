import { corrected } from './corrections.js';
import { grains as crossing } from './tables/crossing.js';
import { grainOf } from './tables/grain.js';
import { grains as chain } from './tables/habit-chain.js';
import { grains as chord } from './tables/habit-chord.js';
import { grains as place } from './tables/habit-place.js';
import { grains as step } from './tables/habit-step.js';
import { grains as hop } from './tables/hop.js';
import { grains as stretch } from './tables/stretch.js';
import { grains as thumb } from './tables/thumb-on-black.js';
import { grains as travel } from './tables/travel.js';
import { TERMS } from './terms/terms.js';

/**
 * Weights of all features, in mm equivalents. They are fitted by `tests/fitting` to the digits that editors printed in
 * public-domain editions (145 scores, 23,200 digits; see DEVELOPERS.md); only numbers are shipped, no passage.
 */

const TABLES: Readonly<Record<string, string>> = {
  travel,
  stretch,
  crossing,
  hop,
  'thumb on black': thumb,
  'habit: place': place,
  'habit: step': step,
  'habit: chain': chain,
  'habit: chord': chord,
};

/** `3 -12 *40 7`: grains; `*n` stands for n zeros. */
function decode(table: string, size: number, grain: number): number[] {
  const weights = table
    .trim()
    .split(/\s+/)
    .flatMap((token) =>
      token.startsWith('*') ? new Array<number>(Number(token.slice(1))).fill(0) : [Number(token) * grain],
    );
  if (weights.length !== size)
    throw new RangeError(`a table of ${weights.length} weights where ${size} are due`);
  return weights;
}

export const WEIGHTS = corrected(
  Float64Array.from(TERMS.flatMap(({ name, size }) => decode(TABLES[name]!, size, grainOf(name)))),
);
