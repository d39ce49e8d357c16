import { bench, describe } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { travelCost, travelWeight } from '#core/anatomy/travel.js';
import { planCues } from '#core/cues/cues.js';
import { isFree } from '#core/hands/fresh-start.js';
import { planDepth } from '#core/motion/depth/depth.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { planMotion } from '#core/motion/motion.js';
import { GRID_SIZE, LEAST_DEPTH, TipTable } from '#core/motion/tips.js';
import { melody } from '../motion/lines.js';

/** G major up and down over two octaves, again and again. */
function scales(notes: number) {
  const up = [0, 2, 4, 5, 7, 9, 11].map((step) => [0, 12].map((octave) => 55 + octave + step));
  const keys = [...up.map((own) => own[0]!), ...up.map((own) => own[1]!), 79];
  const turn = [...keys, ...keys.slice(1, -1).reverse()];
  const digits = '123123412312345432132143213213';
  const line = Array.from({ length: notes }, (_, at) => at % turn.length);
  return melody(
    'right',
    line.map((at) => turn[at]!),
    line.map((at) => digits[at]!).join(''),
    0.15,
  );
}

const hand = handModel();
const given = scales(5000);
const long = scales(20_000);
const uses = fingersInUse(given.line, given.fingers);
const plan = planMotion(given.line, given.fingers, hand);

/** The least cost without a forearm that is a mass, and without the use that the plan makes of a convex travel cost. */
function plainDepth(): number {
  const tips = new TipTable(hand);
  let costs = new Float64Array(GRID_SIZE);
  given.line.slices.forEach((slice, at) => {
    const weight = travelWeight(slice.seconds, isFree(slice.free, slice.phraseStart));
    costs = Float64Array.from(costs, (_, step) => {
      let least = Number.POSITIVE_INFINITY;
      for (let origin = 0; origin < GRID_SIZE; origin++) {
        least = Math.min(least, costs[origin]! + travelCost(step - origin, weight));
      }
      return uses[at]!.reduce(
        (sum, { finger, key }) => sum + tips.at(finger, key, step + LEAST_DEPTH).discomfort,
        least,
      );
    });
  });
  return Math.min(...costs);
}

describe('motion of 5,000 notes', () => {
  bench('depth', () => void planDepth(given.line, uses, new TipTable(hand)));
  bench('depth by plain quadratic search', () => void plainDepth(), {
    iterations: 1,
    time: 0,
    warmupIterations: 0,
    warmupTime: 0,
  });
  bench('whole motion', () => void planMotion(given.line, given.fingers, hand));
  bench('cues', () => void planCues(given.line, plan, { language: 'en' }));
  bench('whole motion of four times as many notes', () => void planMotion(long.line, long.fingers, hand));
});
