import type { HandModel } from '../anatomy/hand.js';
import { PerHand } from '../anatomy/per-hand.js';
import type { Flow } from '../hands/joins.js';
import type { Line } from '../hands/line.js';
import type { Ornaments } from '../hands/ornaments.js';
import { rounded } from '../numeric/fixed-point.js';
import { checkFingering, checkLine } from '../options/allowed.js';
import type { Criterion } from '../options/options.js';
import type { NextBest } from '../options/report.js';
import type { Finger } from '../score/model.js';
import { consistentChoice } from './consistency/settle.js';
import type { Choice } from './cost/choice.js';
import { DEPTH_WEIGHT, DepthGrid } from './cost/depth.js';
import { type Explained, explain } from './cost/explain.js';
import type { ExtraCost } from './cost/extra-cost.js';
import { LineCosts } from './cost/line-costs.js';
import { Objective } from './cost/objective.js';
import { CostTable } from './cost/slice-costs.js';
import { WEIGHTS } from './cost/weights.js';
import { ornamentCosts } from './ornaments.js';
import { type JoinedChoice, settleJoins } from './repeats/settle.js';
import type { LineFingering, SliceFingering } from './result.js';
import { nextFingers, secondChoices } from './second-choices.js';
import { type Surroundings, surroundingsOf } from './view/surroundings.js';
import { type SliceView, viewLine } from './view/view.js';

/** What `fingerLine` takes into account besides the line itself; `readLines` gives `flow` and `ornaments`. */
export interface FingerOptions {
  /** What the fingers are chosen by. Default usage. */
  readonly by?: Criterion;
  /** Keep the digits that the file gives. Default true. */
  readonly keepDigits?: boolean;
  /** Where playing order departs from print; default: nowhere. */
  readonly flow?: Flow | undefined;
  /** Ornaments of the line; default: none. */
  readonly ornaments?: Ornaments | undefined;
  /** Greatest number of second choices to find for a note. Default 0. */
  readonly alternates?: number;
  /** Find the next best finger of every key, and what it would cost. Default false. */
  readonly nextBest?: boolean;
}

/** A slice that the hand cannot play as written, or whose given digits contradict the hand. */
export interface FingeringDoubt {
  /** Index of the slice. */
  readonly slice: number;
  /** Beyond reach, or digits in the file that do not fit. */
  readonly kind: 'reach' | 'digits';
}

/** What `fingerLine` gives. */
export interface Fingered {
  /** Fingers and their costs. */
  readonly fingering: LineFingering;
  /** Slices that cannot be played as written, in printed order. */
  readonly doubts: readonly FingeringDoubt[];
  /** Where asked for: second choices by slice and struck key. */
  readonly alternates?: readonly (readonly (readonly Finger[])[])[];
  /** Where asked for: the next best finger by slice and struck key, null where there is no other. */
  readonly nextBest?: readonly (readonly (NextBest | null)[])[];
}

/** What the search works on. */
export interface Prepared {
  readonly by: Criterion;
  readonly line: Line;
  readonly hand: HandModel;
  readonly views: readonly SliceView[];
  readonly surroundings: readonly Surroundings[];
  readonly costs: CostTable;
  readonly grid: DepthGrid;
  /** What the search minimises, but for what inconsistent fingering and the joins of repeats cost. */
  readonly objective: Objective;
}

/** Costs that all lines of a hand have in common. */
const COSTS: Readonly<Record<Criterion, PerHand<CostTable>>> = {
  usage: new PerHand((hand) => new CostTable(hand, WEIGHTS.usage)),
  movement: new PerHand((hand) => new CostTable(hand, WEIGHTS.movement)),
};
const GRIDS = new PerHand((hand) => new DepthGrid(hand, DEPTH_WEIGHT));

export function prepare(line: Line, hand: HandModel, options: FingerOptions): Prepared {
  const by = options.by ?? 'usage';
  const views = viewLine(line, hand, options.keepDigits ?? true, options.flow?.cuts);
  const surroundings = surroundingsOf(views);
  const [costs, grid] = [COSTS[by].of(hand), GRIDS.of(hand)];
  const extraCosts = options.ornaments ? [ornamentCosts(views, options.ornaments, line.hand, hand)] : [];
  const objective = new Objective(new LineCosts(views, surroundings, costs, grid), undefined, extraCosts);
  return { by, line, hand, views, surroundings, costs, grid, objective };
}

/**
 * The least-cost fingering of a line for a hand: fingers from 1, the thumb, to 5, costs by term in mm
 * equivalents of sideways hand travel. Keys beyond the hand's reach have null and are listed in `doubts`.
 */
export function fingerLine(line: Line, hand: HandModel, options: FingerOptions = {}): Fingered {
  checkLine(line, hand);
  checkFingering(options);
  const prepared = prepare(line, hand, options);
  const { views } = prepared;
  const { choice, objective, otherObjective } = leastFingering(prepared, options.flow);
  const most = options.alternates ?? 0;
  return {
    fingering: fingeringOf(prepared, choice, objective.extraCosts),
    doubts: doubtsOf(views),
    ...(most > 0 && {
      alternates: secondChoices(objective, choice.path, most),
    }),
    ...(options.nextBest && {
      nextBest: nextFingers(otherObjective ? [objective, otherObjective()] : [objective], choice.path),
    }),
  };
}

/** The choice to print, and the objective that it is the least of. */
export function leastFingering({ objective, costs, grid }: Prepared, flow?: Flow): JoinedChoice {
  const { bias, ...choice } = consistentChoice(objective);
  const start = objective.with(bias);
  return flow ? settleJoins(choice, start, flow, costs, grid) : { choice, objective: start };
}

function doubtsOf(views: readonly SliceView[]): FingeringDoubt[] {
  const doubts: FingeringDoubt[] = [];
  for (const { index, trouble } of views)
    if (trouble !== 'none') doubts.push({ slice: index, kind: trouble });
  return doubts;
}

/** The fingers of a choice, with their cost by term. */
export function fingeringOf(
  { by, line, hand, views, surroundings, grid }: Prepared,
  choice: Choice,
  extraCosts: readonly ExtraCost[],
): LineFingering {
  const chosen: (readonly Finger[])[] = [];
  for (let at = 0; at < views.length; at++) chosen.push(views[at]!.candidates[choice.path[at]!]!.fingers);
  const explained = explain(by, views, surroundings, chosen, choice, hand, grid, extraCosts);
  const slices: SliceFingering[] = [];
  for (let at = 0; at < views.length; at++) slices.push(placed(views[at]!, chosen[at]!, explained[at]!));
  return { line, slices, cost: rounded(choice.cost) };
}

const NONE: never[] = [];
Object.freeze(NONE);

function unplayed(): null {
  return null;
}

/** Fingers in the order of the slice's own keys. */
function placed(view: SliceView, fingers: readonly Finger[], { terms, movement }: Explained): SliceFingering {
  const struck: (Finger | null)[] = view.slice.struck.map(unplayed);
  const held: (Finger | null)[] = view.slice.held.length > 0 ? view.slice.held.map(unplayed) : NONE;
  for (let at = 0; at < fingers.length; at++) {
    (view.struck[at] ? struck : held)[view.source[at]!] = fingers[at]!;
  }
  return { struck, held, terms, movement };
}
