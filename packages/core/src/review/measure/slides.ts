import type { ExtraCost, SliceExtraCost } from '../../fingering/cost/extra-cost.js';
import { hop, hopInto, hopsInto, isOffBlack, SLIDE } from '../../fingering/cost/terms/hop.js';
import { areSingle } from '../../fingering/cost/terms/term.js';
import { OFFSETS, TERMS } from '../../fingering/cost/terms/terms.js';
import { WEIGHTS } from '../../fingering/cost/weights.js';
import type { SliceView } from '../../fingering/view/view.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';
import type { Finger } from '../../score/model.js';

/** Semitones over which the thumb glides below a voice that is held. */
const GLIDE = 2;

/** Semitones that no hand spans: it leaps, whatever its fingers. */
const LEAP = 16;

/**
 * Whether one finger gets from a key to the next without a hop (common practice): it slides from a black key to the white
 * one beside it, or it is the thumb, which glides by a step while other fingers hold their keys. Nor is a leap one.
 *
 * @param was index of its key in the earlier view, `is` in the later one
 */
export function slides(finger: Finger, before: SliceView, was: number, view: SliceView, is: number): boolean {
  if (isOffBlack(before, was, view, is)) return true;
  const semitones = Math.abs(view.keys[is]! - before.keys[was]!);
  if (semitones >= LEAP) return true;
  return finger === 1 && !areSingle(before, view) && semitones <= GLIDE;
}

export const SLIDES = 'slides';

const weightOf = (feature: number): number => WEIGHTS.movement[OFFSETS[TERMS.indexOf(hop)]! + feature]!;

/** What the cost charges as hops that are slides, taken off again but for what a slide takes. */
export function slideCosts(views: readonly SliceView[]): ExtraCost {
  const slices = new Map<number, SliceExtraCost>();
  for (let at = 1; at < views.length; at++) {
    const steps = stepsInto(views[at - 1]!, views[at]!);
    if (steps) slices.set(at, { steps });
  }
  return { name: SLIDES, slices };
}

/** mm by candidate before and candidate, 0 or less; undefined where nothing slides. */
function stepsInto(before: SliceView, view: SliceView): Float64Array | undefined {
  const single = areSingle(before, view);
  if (view.fresh || view.cut || (!single && !view.struck.includes(false))) return undefined;
  const charged = hopsInto(view) * weightOf(hopInto(view, single));
  const less = toFixedPoint(Math.min(0, weightOf(SLIDE) - charged));
  let steps: Float64Array | undefined;
  let cell = 0;
  for (const { fingers: from } of before.candidates) {
    for (const { fingers: to } of view.candidates) {
      for (let is = 0; is < to.length; is++) {
        const finger = to[is]!;
        const was = from.indexOf(finger);
        if (was < 0 || !view.struck[is] || before.keys[was] === view.keys[is]) continue;
        if (!slides(finger, before, was, view, is) || isSlide(finger, before, was, view, is)) continue;
        steps ??= new Float64Array(before.candidates.length * view.candidates.length);
        steps[cell]! += less;
      }
      cell++;
    }
  }
  return steps;
}

/** What the cost itself takes for a slide: any finger's from a black key to the white one beside it, but for the second's. */
function isSlide(finger: Finger, before: SliceView, was: number, view: SliceView, is: number): boolean {
  return finger !== 2 && isOffBlack(before, was, view, is);
}
