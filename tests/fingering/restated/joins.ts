import type { HandModel } from '#core/anatomy/hand.js';
import { DEPTH_COUNT, DEPTH_WEIGHT, DepthGrid } from '#core/fingering/cost/depth.js';
import { CostTable } from '#core/fingering/cost/slice-costs.js';
import { WEIGHTS } from '#core/fingering/cost/weights.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import type { Flow, Join } from '#core/hands/joins.js';
import type { Line, Slice } from '#core/hands/line.js';
import { compare, toNumber } from '#core/numeric/fraction.js';
import type { Part } from '#core/score/model.js';

/*
 * Repeats, stated once more to judge the library's own: the music is unfolded as it is played, what the library never
 * does, and joins are read off it.
 */

/** A slice at the time at which it is played. */
interface Played {
  readonly slice: Slice;
  readonly seconds: number;
}

/** All slices in playing order. A slice at an inner barline belongs to what begins there. */
export function unfolded(
  line: Line,
  { playingOrder, measures }: Part,
  secondsAt: (quarters: number) => number,
): Played[] {
  const played: Played[] = [];
  let before = 0;
  for (const { measure, from, to } of playingOrder) {
    const begins = secondsAt(toNumber(from));
    const { start, length } = measures[measure]!;
    const [opens, closes] = [
      toNumber(start) === toNumber(from),
      toNumber(start) + toNumber(length) === toNumber(to),
    ];
    for (const slice of line.slices) {
      if (slice.measure !== measure) continue;
      if (!opens && compare(slice.onset, from) < 0) continue;
      if (!closes && compare(slice.onset, to) >= 0) continue;
      played.push({ slice, seconds: before + secondsAt(toNumber(slice.onset)) - begins });
    }
    before += secondsAt(toNumber(to)) - begins;
  }
  return played;
}

/** Neighbours in playing order that are none in print, each as it is first met; and slices that never follow in print. */
export function flowOf(played: readonly Played[]): Flow {
  const joins = new Map<string, Join>();
  const inOrder = new Set<number>();
  for (let at = 1; at < played.length; at++) {
    const [last, next] = [played[at - 1]!, played[at]!];
    const [from, to] = [last.slice.index, next.slice.index];
    if (to === from + 1) inOrder.add(to);
    else if (!joins.has(`${from} ${to}`)) {
      const seconds = next.seconds - last.seconds;
      const held = Math.max(...[...last.slice.struck, ...last.slice.held].map((key) => key.seconds));
      joins.set(`${from} ${to}`, { from, to, seconds, free: Math.max(0, seconds - held) });
    }
  }
  const cuts = new Set(
    played.map(({ slice }) => slice.index).filter((index) => index > 0 && !inOrder.has(index)),
  );
  return { joins: [...joins.values()], cuts };
}

/** One join, and the slices around it as if they stood in print one after the other, with the time of playing. */
interface Met {
  readonly join: Join;
  readonly views: readonly SliceView[];
  readonly leads: boolean;
  readonly follows: boolean;
}

/** What joins cost: the step, the two chains and the move in depth across each. */
export class JoinLedger {
  readonly #met: readonly Met[];
  readonly #costs: CostTable;
  readonly #grid: DepthGrid;

  /** @param views of the printed line */
  constructor(
    line: Line,
    hand: HandModel,
    { joins, cuts }: Flow,
    private readonly views: readonly SliceView[],
  ) {
    this.#costs = new CostTable(hand, WEIGHTS.usage);
    this.#grid = new DepthGrid(hand, DEPTH_WEIGHT);
    this.#met = joins.map((join) => {
      const { from, to, seconds, free } = join;
      const printed = [from - 1, from, to, to + 1];
      // In front of them stands another slice, since the first of a line begins afresh whatever its time.
      const slices = [line.slices[0]!, ...printed.map((at) => line.slices[at] ?? line.slices[0]!)].map(
        (slice, index) => ({ ...slice, index, ...(index === 3 && { seconds, free }) }),
      );
      const unfolded = viewLine({ ...line, slices }, hand, true).slice(1);
      return {
        join,
        // How long a trill is and which keys are still held, print tells.
        views: unfolded.map((view, nth) => ({
          ...(views[printed[nth]!] ?? view),
          seconds: view.seconds,
          free: view.free,
          pace: view.pace,
          fresh: view.fresh,
          cut: view.cut,
        })),
        leads: from > 0 && !cuts.has(from),
        follows: to + 1 < line.slices.length && !cuts.has(to + 1),
      };
    });
  }

  /** mm equivalents of all joins. */
  cost(path: readonly number[], depths: readonly number[]): number {
    const fingers = (at: number) => [this.views[at]!.candidates[path[at]!]!];
    let cost = 0;
    for (const { join, views, leads, follows } of this.#met) {
      const { from, to } = join;
      const [before, here, there, after] = views as [SliceView, SliceView, SliceView, SliceView];
      const [ofHere, ofThere] = [fingers(from), fingers(to)];
      cost += this.#costs.pairs(here, there, ofHere, ofThere)[0]!;
      cost += this.#grid.kernel(there)[depths[from]! * DEPTH_COUNT + depths[to]!]!;
      if (leads) cost += this.#costs.triples(before, here, there, fingers(from - 1), ofHere, ofThere)[0]!;
      if (follows) cost += this.#costs.triples(here, there, after, ofHere, ofThere, fingers(to + 1))[0]!;
    }
    return cost;
  }
}
