import type { HandModel } from '../../anatomy/hand.js';
import type { ExtraCost, SliceExtraCost } from '../../fingering/cost/extra-cost.js';
import { crossing, OVERLAP_ON_BLACK } from '../../fingering/cost/terms/crossing.js';
import { FAST_HOPS, hop, SLOW_HOPS } from '../../fingering/cost/terms/hop.js';
import type { Term } from '../../fingering/cost/terms/term.js';
import { OFFSETS, TERMS } from '../../fingering/cost/terms/terms.js';
import { WeightedSum } from '../../fingering/cost/weighted-sum.js';
import { WEIGHTS } from '../../fingering/cost/weights.js';
import { onlyStruck } from '../../fingering/view/struck.js';
import { roughPace, type SliceView } from '../../fingering/view/view.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';
import type { Finger } from '../../score/model.js';

/** Semitones beyond which fingers do not cross: the hand leaps, as `motion/thumb-crossings` has it. */
const FARTHEST = 7;
/** Semitones of the widest step of a scale but one: over more, long fingers do not pass one another, the hand is set down anew. */
const STEP = 2;

/** Seconds in which the hand moves as a whole instead of one long finger passing another: as a silent substitution takes. */
const TIME_TO_MOVE = 0.35;

const weightOf = (term: Term, feature: number): number =>
  WEIGHTS.movement[OFFSETS[TERMS.indexOf(term)]! + feature]!;

/** mm of one finger that leaves its key early, by pace; of one that has the time. */
const HOPS = [0, 1, 2].map((pace) => toFixedPoint(weightOf(hop, FAST_HOPS[0]! + pace)));
const SLOW_HOP = toFixedPoint(weightOf(hop, SLOW_HOPS[0]!));
const OVER_BLACK = toFixedPoint(weightOf(crossing, OVERLAP_ON_BLACK));

/**
 * What the cost charges as crossings beyond what they take, taken off again: it tells apart what editors print, but a review
 * would call the worst of all what a hand does easily in another way. Over more than a fifth the hand leaps. Nobody is
 * forced to cross long fingers, or 5: the hand is lifted and set down anew, which breaks the line as one finger that hops
 * does; and a shorter finger slips behind a longer one on a black key beside it (common practice of chromatic passages).
 */
export function leapCosts(views: readonly SliceView[], hand: HandModel): ExtraCost {
  const sum = new WeightedSum(WEIGHTS.movement);
  const base = OFFSETS[TERMS.indexOf(crossing)]!;
  const slices = new Map<number, SliceExtraCost>();
  for (let at = 1; at < views.length; at++) {
    const [before, view] = [views[at - 1]!, views[at]!];
    const [was, is] = [onlyStruck(before), onlyStruck(view)];
    if (was < 0 || is < 0) continue;
    const count = view.cut ? undefined : crossing.pair?.(before, view, hand);
    if (!count) continue;
    const steps = new Float64Array(before.candidates.length * view.candidates.length);
    const most = new MostOfCrossing(before, was, view, is);
    let cell = 0;
    for (const { fingers: from } of before.candidates) {
      for (const { fingers: to } of view.candidates) {
        sum.begin(base);
        count.count(from, to, sum);
        const charged = toFixedPoint(sum.sum);
        steps[cell++] = Math.min(0, most.of(from[was]!, to[is]!) - charged);
      }
    }
    slices.set(at, { steps });
  }
  return { name: LEAPS, slices };
}

/** mm that a crossing between two single keys takes at most. */
class MostOfCrossing {
  readonly #interval: number;
  readonly #fromBlack: boolean;
  readonly #toBlack: boolean;
  readonly #hop: number;

  constructor(before: SliceView, was: number, view: SliceView, is: number) {
    this.#interval = Math.abs(view.keys[is]! - before.keys[was]!);
    this.#fromBlack = before.black[was]!;
    this.#toBlack = view.black[is]!;
    const hasTime = this.#interval > STEP || view.seconds >= TIME_TO_MOVE;
    this.#hop = hasTime ? SLOW_HOP : HOPS[roughPace(view.pace)]!;
  }

  of(from: Finger, to: Finger): number {
    if (this.#interval > FARTHEST) return 0;
    const long = from !== 1 && to !== 1;
    if (!long && from !== 5 && to !== 5) return Number.POSITIVE_INFINITY;
    if (long && slipsBehind(from, to, this.#fromBlack, this.#toBlack, this.#interval)) return OVER_BLACK;
    return long ? this.#hop : SLOW_HOP;
  }
}

/** Whether a shorter finger slips behind a longer one, which is on a black key beside its own. */
export function slipsBehind(
  from: Finger,
  to: Finger,
  fromBlack: boolean,
  toBlack: boolean,
  semitones: number,
): boolean {
  const onBlack = Math.abs(from - 3) < Math.abs(to - 3) ? fromBlack && !toBlack : toBlack && !fromBlack;
  return onBlack && Math.abs(semitones) <= STEP;
}

export const LEAPS = 'leaps';

/** Whether long fingers pass one another over so many semitones in so many seconds; otherwise the hand moves as a whole. */
export function crosses(semitones: number, seconds: number): boolean {
  return Math.abs(semitones) <= FARTHEST && seconds < TIME_TO_MOVE;
}
