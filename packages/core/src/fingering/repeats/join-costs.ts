import { isFreeToGo } from '../../hands/fresh-start.js';
import type { Join } from '../../hands/joins.js';
import { DEPTH_COUNT, type DepthGrid } from '../cost/depth.js';
import type { CostTable } from '../cost/slice-costs.js';
import type { CandidateFingers } from '../view/holds.js';
import { paceOf, type SliceView } from '../view/view.js';
import type { ExtraCostBuilder } from './extra-cost-builder.js';

const D = DEPTH_COUNT;

/** The end of a join that is free while the other is held. */
export type JoinEnd = 'from' | 'to';

/** The slice that a join leads to, timed as it is when reached across the join. */
export function joinedView(view: SliceView, { seconds, free }: Join): SliceView {
  const fresh = isFreeToGo(free, view.slice.phraseStart, seconds);
  return { ...view, seconds, free, pace: paceOf(seconds), fresh, cut: false, goesBack: false };
}

/**
 * What joins cost while one end of each is searched and the other end keeps its chosen fingers: the step across the join,
 * the chains that contain it, and the move in depth.
 */
export class JoinCosts {
  constructor(
    private readonly costs: CostTable,
    private readonly grid: DepthGrid,
  ) {}

  add(extraCosts: ExtraCostBuilder, join: Join, freeEnd: JoinEnd): void {
    const { from, to } = join;
    const { before, here, there, after } = neighbours(extraCosts.views, join);
    const leaving = freeEnd === 'from';
    const [free, held] = leaving ? [from, to] : [to, from];
    const [ofHere, ofThere] = [fingersOf(extraCosts, from, leaving), fingersOf(extraCosts, to, !leaving)];
    const across = this.costs.pairs(here, there, ofHere, ofThere);
    const lead =
      before &&
      this.costs.triples(before, here, there, fingersOf(extraCosts, from - 1, leaving), ofHere, ofThere);
    const follow =
      after &&
      this.costs.triples(here, there, after, ofHere, ofThere, fingersOf(extraCosts, to + 1, !leaving));
    // The chain beyond the held end depends on the free slice alone; the one before the free end on its neighbour too.
    const [alone, paired] = leaving ? [follow, lead] : [lead, follow];
    if (alone) addTo(across, alone);
    if (paired) addTo(extraCosts.steps(leaving ? from : to + 1), paired);
    const [own, kernel] = [extraCosts.own(free), this.grid.kernel(there)];
    const depth = extraCosts.choice.depths[held]!;
    for (let cell = 0; cell < own.length; cell++) {
      const move = leaving ? (cell % D) * D + depth : depth * D + (cell % D);
      own[cell]! += across[Math.floor(cell / D)]! + kernel[move]!;
    }
    extraCosts.hold(held);
    if (alone) extraCosts.holdFingers(leaving ? to + 1 : from - 1);
  }
}

interface Neighbours {
  readonly before: SliceView | undefined;
  readonly here: SliceView;
  readonly there: SliceView;
  readonly after: SliceView | undefined;
}

/** The two slices on either side of a join, in playing order. */
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

/** All candidates of a slice, or only the chosen one. */
function fingersOf(
  { views, choice }: ExtraCostBuilder,
  at: number,
  free: boolean,
): readonly CandidateFingers[] {
  const { candidates } = views[at]!;
  return free ? candidates : [candidates[choice.path[at]!]!];
}

function addTo(costs: Float64Array, more: Float64Array): void {
  for (let cell = 0; cell < costs.length; cell++) costs[cell]! += more[cell]!;
}
