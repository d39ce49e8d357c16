import type { HandModel } from '../anatomy/hand.js';
import { reach } from '../anatomy/reach.js';
import type { Ornamented, Ornaments } from '../hands/ornaments.js';
import { keyX, mirrorKey } from '../keyboard/key-plan.js';
import type { Finger } from '../score/model.js';
import { DEPTH_COUNT } from './cost/depth.js';
import type { ExtraCost, SliceExtraCost } from './cost/extra-cost.js';
import type { SliceView } from './view/view.js';

/**
 * mm equivalents that the alternation of two fingers costs, by the lower and the higher of them. The order is common
 * practice (1-3 and 2-3 trill best, 3-4 is weak, 4-5 dear); the numbers are our choice, scaled to the other terms.
 */
const ALTERNATION: Readonly<Record<string, number>> = {
  '13': 0,
  '23': 0,
  '12': 12,
  '24': 12,
  '14': 20,
  '35': 20,
  '34': 25,
  '25': 30,
  '15': 40,
  '45': 60,
};
/** No finger is free for the neighbouring key: the hand must leave its position for it. */
const NO_FINGER = 240;
/** Share of a trill's cost for an ornament that plays its neighbour once or twice. */
const SHORT = 0.5;

/** Cost of ornaments: their neighbouring keys need fingers that are free and trill well. */
export function ornamentCosts(
  views: readonly SliceView[],
  { keys, tremolos }: Ornaments,
  hand: 'right' | 'left',
  model: HandModel,
): ExtraCost {
  const own = hand === 'left' ? mirrorKey : (key: number) => key;
  const slices = new Map<number, SliceExtraCost>();
  for (const [at, ornamented] of keys) {
    const view = views[at]!;
    const costs = new Float64Array(view.candidates.length * DEPTH_COUNT);
    view.candidates.forEach(({ fingers }, nth) => {
      const cost = ornamented.reduce((sum, one) => sum + ornamentCost(view, fingers, one, own, model), 0);
      costs.fill(cost, nth * DEPTH_COUNT, (nth + 1) * DEPTH_COUNT);
    });
    slices.set(at, { own: costs });
  }
  for (const at of tremolos) {
    const [before, view] = [views[at - 1]!, views[at]!];
    const steps = before.candidates.flatMap(({ fingers: from }) =>
      view.candidates.map(({ fingers: to }) => tremoloCost(before, view, from, to, model)),
    );
    slices.set(at, { ...slices.get(at), steps: Float64Array.from(steps) });
  }
  return { name: 'ornament', slices };
}

function ornamentCost(
  view: SliceView,
  fingers: readonly Finger[],
  { key, auxiliaries, lasting }: Ornamented,
  own: (key: number) => number,
  model: HandModel,
): number {
  const at = view.keys.indexOf(own(key));
  if (at < 0) return 0;
  return auxiliaries.reduce(
    (sum, auxiliary) => sum + auxiliaryCost(view, fingers, at, own(auxiliary), model) * (lasting ? 1 : SHORT),
    0,
  );
}

/** The cheapest free finger for a key beside `view.keys[at]`: in the order of the keys, and within reach. */
function auxiliaryCost(
  view: SliceView,
  fingers: readonly Finger[],
  at: number,
  key: number,
  model: HandModel,
): number {
  if (view.keys.includes(key)) return NO_FINGER;
  let least = NO_FINGER;
  for (const finger of [1, 2, 3, 4, 5] as const) {
    if (!isInOrder(view, fingers, finger, key)) continue;
    if (!withinReach(fingers[at]!, view.keys[at]!, finger, key, model)) continue;
    least = Math.min(least, alternation(fingers[at]!, finger));
  }
  return least;
}

/** Whether the finger is free and in the order of the keys. */
function isInOrder(view: SliceView, fingers: readonly Finger[], finger: Finger, key: number): boolean {
  for (let nth = 0; nth < fingers.length; nth++) {
    const other = fingers[nth]!;
    if (other === finger || view.keys[nth]! < key !== other < finger) return false;
  }
  return true;
}

/** Two slices that alternate are held like one: every finger on its keys, in their order and within reach. */
function tremoloCost(
  before: SliceView,
  view: SliceView,
  from: readonly Finger[],
  to: readonly Finger[],
  model: HandModel,
): number {
  let cost = 0;
  for (let a = 0; a < from.length; a++) {
    for (let b = 0; b < to.length; b++) {
      const [low, high] = [before.keys[a]!, view.keys[b]!];
      if (low === high) cost += from[a] === to[b] ? 0 : NO_FINGER;
      else if (from[a] === to[b] || low < high !== from[a]! < to[b]!) cost += NO_FINGER;
      else if (!withinReach(from[a]!, low, to[b]!, high, model)) cost += NO_FINGER;
    }
  }
  if (from.length === 1 && to.length === 1 && from[0] !== to[0])
    cost += SHORT * alternation(from[0]!, to[0]!);
  return cost;
}

function alternation(a: Finger, b: Finger): number {
  return ALTERNATION[a < b ? `${a}${b}` : `${b}${a}`]!;
}

function withinReach(a: Finger, aKey: number, b: Finger, bKey: number, model: HandModel): boolean {
  const distance = keyX(bKey) - keyX(aKey);
  const { minPractical, maxPractical } = reach(model, a, b);
  const mm = a < b ? distance : -distance;
  return mm >= Math.min(minPractical, 0) && mm <= maxPractical;
}
