import { FEATURES } from '#core/fingering/cost/terms/terms.js';
import type { Sample } from './data.js';
import { featuresOf, type Rows } from './features.js';
import { SCALE } from './train.js';

/** By feature: at how many slices with a digit of an editor it tells some candidates from others. */
export function supportOf(samples: readonly Sample[]): Uint32Array {
  const support = new Uint32Array(FEATURES);
  const seen = new Int32Array(FEATURES).fill(-1);
  let slice = 0;
  const note = ({ index }: Rows): void => {
    for (const feature of index) {
      if (seen[feature] === slice) continue;
      seen[feature] = slice;
      support[feature]!++;
    }
  };
  for (const sample of samples) {
    for (const { agrees, slice: own, step, chain } of featuresOf(sample, SCALE)) {
      slice++;
      if (!agrees) continue;
      note(own);
      if (step) note(step);
      if (chain) note(chain);
    }
  }
  return support;
}
