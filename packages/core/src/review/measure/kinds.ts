import { DEPTH_COUNT } from '../../fingering/cost/depth.js';
import { countTerm } from '../../fingering/cost/explain.js';
import { heldCost } from '../../fingering/cost/slice-costs.js';
import { isHabit } from '../../fingering/cost/terms/term.js';
import { OFFSETS, TERMS } from '../../fingering/cost/terms/terms.js';
import { WeightedSum } from '../../fingering/cost/weighted-sum.js';
import { WEIGHTS } from '../../fingering/cost/weights.js';
import { rounded } from '../../numeric/fixed-point.js';
import { checkMovements } from '../../options/allowed.js';
import { fingersAt, type Judged, NO_MOVEMENT, type OtherChoice } from './judged.js';
import { LEAPS } from './leaps.js';
import { SLIDES } from './slides.js';

/** Kinds of movement, in the order in which they are listed. */
export const KINDS = [
  'sideways',
  'in-and-out',
  'crossings',
  'stretch',
  'curl',
  'one-finger',
  'other',
] as const;
/** A kind of movement. */
export type Kind = (typeof KINDS)[number];

/** mm by kind. */
export type Movement = Readonly<Record<Kind, number>>;

/** What each term of the cost belongs to; `other` is the thumb on black in a run, a chord's frame, trills, changes on one key. */
const KIND_OF: Readonly<Record<string, Kind>> = {
  travel: 'sideways',
  position: 'sideways',
  leap: 'sideways',
  crossing: 'crossings',
  'thumb passes': 'crossings',
  order: 'crossings',
  stretch: 'stretch',
  'idle finger': 'stretch',
  hop: 'one-finger',
  'own finger': 'one-finger',
  repetition: 'one-finger',
};

/** What each extra cost belongs to, if not `other`. */
const KIND_OF_EXTRA: Readonly<Record<string, Kind>> = { [LEAPS]: 'crossings', [SLIDES]: 'one-finger' };

/**
 * mm at most of a finger that changes on held keys, and of a slice's stretch: the search forbids what no hand can do by
 * costs that are no movement. These are a change in time, and about a pair at its limit.
 */
const MOST_HELD = 60;
const MOST_STRETCH = 300;

/**
 * Movement into the slices from `from` up to `to` and discomfort in them, by kind: the same mechanics as the cost of
 * movement, mm.
 *
 * @param path candidates, depths those of the forearm
 */
export function movementOf(
  judged: Judged,
  { path, depths }: OtherChoice,
  from: number,
  to: number,
): readonly Movement[] {
  const { hand, grid, objective } = judged;
  const sum = new WeightedSum(WEIGHTS.movement);
  const row = new Float64Array(DEPTH_COUNT);
  const pathAt = (at: number) => path.at(at) ?? judged.printed.path[at]!;
  const depthAt = (at: number) => depths.at(at) ?? judged.printed.depths[at]!;
  // Chains reach two slices back.
  const start = Math.max(0, from - 2);
  const views = judged.views.slice(start, to);
  const surroundings = judged.surroundings.slice(start, to);
  const chosen = views.map((_, nth) => fingersAt(judged, path, start + nth));
  const movements: Movement[] = [];
  for (let at = from; at < to; at++) {
    const own = at - start;
    const mm = noMovement();
    for (let nth = 0; nth < TERMS.length; nth++) {
      const term = TERMS[nth]!;
      if (isHabit(term)) continue;
      sum.begin(OFFSETS[nth]!);
      countTerm(term, views, surroundings, chosen, own, hand, sum);
      mm[KIND_OF[term.name] ?? 'other'] += sum.sum;
    }
    const view = views[own]!;
    const before = view.cut ? undefined : views[own - 1];
    row.fill(0);
    grid.addDiscomfort(view, chosen[own]!, row, 0);
    mm.curl += row[depthAt(at)]!;
    if (before) {
      mm['in-and-out'] += grid.kernel(view)[depthAt(at - 1) * DEPTH_COUNT + depthAt(at)]!;
      mm.other += Math.min(MOST_HELD, heldCost(before, view, chosen[own - 1]!, chosen[own]!));
    }
    mm.stretch = Math.min(MOST_STRETCH, mm.stretch);
    for (const { name, slices } of objective.extraCosts) {
      if (name === NO_MOVEMENT) continue;
      const { own: alone, steps } = slices.get(at) ?? {};
      const pair = at > 0 ? pathAt(at - 1) * view.candidates.length + pathAt(at) : 0;
      const extra = (alone?.[pathAt(at) * DEPTH_COUNT + depthAt(at)] ?? 0) + (steps?.[pair] ?? 0);
      mm[KIND_OF_EXTRA[name] ?? 'other'] += extra;
    }
    movements.push(mm);
  }
  return movements;
}

const known = new WeakMap<Judged, readonly Movement[]>();

/** Movement of the printed digits, by slice of the whole line; worked out once. */
export function printedMovement(judged: Judged): readonly Movement[] {
  let found = known.get(judged);
  if (!found) {
    found = movementOf(judged, judged.printed, 0, judged.views.length);
    known.set(judged, found);
  }
  return found;
}

/** Nothing, to add to. */
export function noMovement(): Record<Kind, number> {
  return { sideways: 0, 'in-and-out': 0, crossings: 0, stretch: 0, curl: 0, 'one-finger': 0, other: 0 };
}

/** Movements added up, by kind. */
export function sumOfMovements(movements: readonly Movement[]): Movement {
  checkMovements(movements);
  const sum = noMovement();
  for (const own of movements) for (const kind of KINDS) sum[kind] += own[kind];
  for (const kind of KINDS) sum[kind] = rounded(sum[kind]);
  return sum;
}

/** All kinds together. */
export function total(movement: Movement): number {
  let sum = 0;
  for (const kind of KINDS) sum += movement[kind];
  return rounded(sum);
}
