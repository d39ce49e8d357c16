import { FREE_SECONDS } from '../hands/anew.js';
import type { Join } from '../hands/flow.js';
import type { Assignment } from './candidates.js';
import type { CostTable } from './cost.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import type { Extras } from './extras.js';
import { paceOf, type SliceView } from './view.js';

const D = DEPTH_COUNT;

/** The end of a join that is free while the other is held. */
export type Side = 'from' | 'to';

/** The slice after a join as it is reached from there. */
export function joinedView(view: SliceView, { seconds, free }: Join): SliceView {
  const fresh = view.slice.phraseStart || free >= FREE_SECONDS;
  return { ...view, seconds, free, pace: paceOf(seconds), fresh, cut: false };
}

/** What joins cost with one side free and the other held as chosen: the step, the chains and the move in depth. */
export class JoinCosts {
  constructor(
    private readonly costs: CostTable,
    private readonly grid: DepthGrid,
  ) {}

  add(extras: Extras, join: Join, side: Side): void {
    if (side === 'from') this.#leave(extras, join);
    else this.#arrive(extras, join);
  }

  #leave(extras: Extras, join: Join): void {
    const { from, to } = join;
    const { before, here, there, after } = neighbours(extras.views, join);
    extras.hold(to);
    if (after) extras.holdFingers(to + 1);
    const all = here.candidates;
    const arrived = held(extras, to);
    const across = this.costs.pairs(here, there, all, arrived);
    if (after) addTo(across, this.costs.triples(here, there, after, all, arrived, held(extras, to + 1)));
    const own = extras.own(from);
    const kernel = this.grid.kernel(there);
    const depth = extras.choice.depths[to]!;
    for (let cell = 0; cell < own.length; cell++)
      own[cell]! += across[Math.floor(cell / D)]! + kernel[(cell % D) * D + depth]!;
    if (before)
      addTo(extras.steps(from), this.costs.triples(before, here, there, before.candidates, all, arrived));
  }

  #arrive(extras: Extras, join: Join): void {
    const { from, to } = join;
    const { before, here, there, after } = neighbours(extras.views, join);
    extras.hold(from);
    if (before) extras.holdFingers(from - 1);
    const all = there.candidates;
    const left = held(extras, from);
    const across = this.costs.pairs(here, there, left, all);
    if (before) addTo(across, this.costs.triples(before, here, there, held(extras, from - 1), left, all));
    const own = extras.own(to);
    const kernel = this.grid.kernel(there);
    const depth = extras.choice.depths[from]!;
    for (let cell = 0; cell < own.length; cell++)
      own[cell]! += across[Math.floor(cell / D)]! + kernel[depth * D + (cell % D)]!;
    if (after)
      addTo(extras.steps(to + 1), this.costs.triples(here, there, after, left, all, after.candidates));
  }
}

interface Neighbours {
  readonly before: SliceView | undefined;
  readonly here: SliceView;
  readonly there: SliceView;
  readonly after: SliceView | undefined;
}

/** The slices on either side of a join, as they follow one another across it. */
function neighbours(views: readonly SliceView[], join: Join): Neighbours {
  const here = views[join.from]!;
  const after = views[join.to + 1];
  return {
    before: here.cut ? undefined : views[join.from - 1],
    here,
    there: joinedView(views[join.to]!, join),
    after: after?.cut ? undefined : after,
  };
}

function held({ views, choice }: Extras, at: number): readonly Assignment[] {
  return [views[at]!.candidates[choice.path[at]!]!];
}

function addTo(costs: Float64Array, more: Float64Array): void {
  for (let cell = 0; cell < costs.length; cell++) costs[cell]! += more[cell]!;
}
