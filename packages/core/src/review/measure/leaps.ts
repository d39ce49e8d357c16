import type { HandModel } from '../../anatomy/hand.js';
import type { ExtraCost, SliceExtraCost } from '../../fingering/cost/extra-cost.js';
import { crossing } from '../../fingering/cost/terms/crossing.js';
import { onlyStruck } from '../../fingering/cost/terms/term.js';
import { OFFSETS, TERMS } from '../../fingering/cost/terms/terms.js';
import { WeightedSum } from '../../fingering/cost/weighted-sum.js';
import { WEIGHTS } from '../../fingering/cost/weights.js';
import type { SliceView } from '../../fingering/view/view.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';

/** Semitones beyond which fingers do not cross: the hand leaps, as `motion/thumb-crossings` has it. */
const FARTHEST = 7;

/** Seconds in which the hand moves as a whole instead of one long finger passing another: as a silent substitution takes. */
const TIME_TO_MOVE = 0.35;

/**
 * What the cost charges as crossings although the hand leaps, taken off again: it tells apart what editors print, but a
 * review would name a crossing where there is none. Steps of single keys wider than a fifth, and those of the long fingers
 * and 5 that leave time.
 */
export function leapCosts(views: readonly SliceView[], hand: HandModel): ExtraCost {
  const sum = new WeightedSum(WEIGHTS.movement);
  const base = OFFSETS[TERMS.indexOf(crossing)]!;
  const slices = new Map<number, SliceExtraCost>();
  for (let at = 1; at < views.length; at++) {
    const [before, view] = [views[at - 1]!, views[at]!];
    const [was, is] = [onlyStruck(before), onlyStruck(view)];
    if (was < 0 || is < 0) continue;
    const isFar = Math.abs(view.keys[is]! - before.keys[was]!) > FARTHEST;
    if (!isFar && view.seconds < TIME_TO_MOVE) continue;
    const count = view.cut ? undefined : crossing.pair?.(before, view, hand);
    if (!count) continue;
    const steps = new Float64Array(before.candidates.length * view.candidates.length);
    let cell = 0;
    for (const { fingers: from } of before.candidates) {
      for (const { fingers: to } of view.candidates) {
        sum.begin(base);
        if (isFar || (from[was] !== 1 && to[is] !== 1)) count.count(from, to, sum);
        steps[cell++] = -toFixedPoint(sum.sum);
      }
    }
    slices.set(at, { steps });
  }
  return { name: LEAPS, slices };
}

export const LEAPS = 'leaps';

/** Whether long fingers pass one another over so many semitones in so many seconds; otherwise the hand moves as a whole. */
export function crosses(semitones: number, seconds: number): boolean {
  return Math.abs(semitones) <= FARTHEST && seconds < TIME_TO_MOVE;
}
