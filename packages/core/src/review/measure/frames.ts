import type { HandModel } from '../../anatomy/hand.js';
import { DEPTH_COUNT } from '../../fingering/cost/depth.js';
import type { ExtraCost, SliceExtraCost } from '../../fingering/cost/extra-cost.js';
import { frame } from '../../fingering/cost/terms/frame.js';
import { OFFSETS, TERMS } from '../../fingering/cost/terms/terms.js';
import { WeightedSum } from '../../fingering/cost/weighted-sum.js';
import { WEIGHTS } from '../../fingering/cost/weights.js';
import type { Surroundings } from '../../fingering/view/surroundings.js';
import type { SliceView } from '../../fingering/view/view.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';

/**
 * What the cost charges for chords without 1 and 5 on their outer keys, taken off again: a custom that guides a choice, but
 * no movement that a printed chord could be blamed for.
 */
export function frameCosts(
  views: readonly SliceView[],
  surroundings: readonly Surroundings[],
  hand: HandModel,
): ExtraCost {
  const sum = new WeightedSum(WEIGHTS.movement);
  const base = OFFSETS[TERMS.indexOf(frame)]!;
  const slices = new Map<number, SliceExtraCost>();
  for (let at = 0; at < views.length; at++) {
    const view = views[at]!;
    if (view.keys.length < 3) continue;
    const own = new Float64Array(view.candidates.length * DEPTH_COUNT);
    let charged = 0;
    view.candidates.forEach(({ fingers }, nth) => {
      sum.begin(base);
      frame.slice?.(view, fingers, surroundings[at]!, sum, hand);
      const mm = toFixedPoint(sum.sum);
      own.fill(-mm, nth * DEPTH_COUNT, (nth + 1) * DEPTH_COUNT);
      charged += mm;
    });
    if (charged > 0) slices.set(at, { own });
  }
  return { name: 'frames', slices };
}
