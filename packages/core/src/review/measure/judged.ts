import type { HandModel } from '../../anatomy/hand.js';
import type { Choice } from '../../fingering/cost/choice.js';
import { DEPTH_COUNT, DEPTH_WEIGHT, DepthGrid } from '../../fingering/cost/depth.js';
import type { ExtraCost, SliceExtraCost } from '../../fingering/cost/extra-cost.js';
import { LineCosts } from '../../fingering/cost/line-costs.js';
import { type Bias, Objective } from '../../fingering/cost/objective.js';
import { CostTable } from '../../fingering/cost/slice-costs.js';
import { WEIGHTS } from '../../fingering/cost/weights.js';
import { ornamentCosts } from '../../fingering/ornaments.js';
import { Search } from '../../fingering/search/forward.js';
import type { CandidateFingers } from '../../fingering/view/holds.js';
import { type Surroundings, surroundingsOf } from '../../fingering/view/surroundings.js';
import { type SliceView, viewLine } from '../../fingering/view/view.js';
import type { PlayingContext } from '../../hands/context.js';
import type { Line } from '../../hands/line.js';
import type { Finger } from '../../score/model.js';
import { frameCosts } from './frames.js';
import { leapCosts } from './leaps.js';
import { slideCosts } from './slides.js';

/**
 * One hand's line with its digits in print, judged by the mechanics alone (`WEIGHTS.movement`): every fingering that the
 * hand can play, and the one of least movement among those that have the printed digits. So the digits that the score
 * leaves open are the kindest to those that it prints.
 */
export interface Judged {
  readonly line: Line;
  readonly hand: HandModel;
  /** All that the hand can play, and what is printed. */
  readonly views: readonly SliceView[];
  readonly surroundings: readonly Surroundings[];
  readonly grid: DepthGrid;
  readonly objective: Objective;
  /** The printed digits, completed. */
  readonly printed: Choice;
  /** By slice and key of its view: the digit in print. */
  readonly digits: readonly (readonly (Finger | undefined)[])[];
  /** Slices whose printed digits no hand can hold together. */
  readonly unholdable: ReadonlySet<number>;
  /** Those of them that it can hold without the keys that have no digit. */
  readonly shared: ReadonlySet<number>;
  readonly search: Search;
}

/** @param line its `fixed` fingers are the digits to be judged */
export function judge(line: Line, hand: HandModel, { flow, ornaments }: PlayingContext = {}): Judged {
  const given = viewLine(line, hand, true, flow?.cuts);
  const free = viewLine(line, hand, false, flow?.cuts);
  const views: SliceView[] = [];
  for (let at = 0; at < free.length; at++) views.push(withPrinted(free[at]!, given[at]!, line, hand));
  const surroundings = surroundingsOf(views);
  const grid = new DepthGrid(hand, DEPTH_WEIGHT);
  const costs = new LineCosts(views, surroundings, new CostTable(hand, WEIGHTS.movement), grid);
  const extra = [
    leapCosts(views, hand),
    slideCosts(views),
    frameCosts(views, surroundings, hand),
    unholdableCosts(views, free),
  ];
  if (ornaments) extra.push(ornamentCosts(views, ornaments, line.hand, hand));
  const objective = new Objective(costs, undefined, extra);
  const search = new Search();
  const unholdable = new Set<number>();
  const shared = new Set<number>();
  for (const view of given) {
    if (view.trouble !== 'digits') continue;
    unholdable.add(view.index);
    if (fitsAlone(view, line, hand)) shared.add(view.index);
  }
  return {
    line,
    hand,
    views,
    surroundings,
    grid,
    objective,
    printed: search.find(objective.with(onlyPrinted(views, given))),
    digits: views.map(digitsIn),
    unholdable,
    shared,
    search,
  };
}

/** mm of the search for digits that no hand can hold: more than any movement, but no movement. */
const UNHOLDABLE = 1000;
export const NO_MOVEMENT = 'unholdable';

/** What the printed digits have beyond what a hand can hold. */
function unholdableCosts(views: readonly SliceView[], free: readonly SliceView[]): ExtraCost {
  const slices = new Map<number, SliceExtraCost>();
  for (let at = 0; at < views.length; at++) {
    const { candidates, index, keys } = views[at]!;
    if (candidates === free[at]!.candidates || keys.length !== free[at]!.keys.length) continue;
    const own = new Float64Array(candidates.length * DEPTH_COUNT);
    candidates.forEach(({ name }, nth) => {
      if (!isAmong(name, free[at]!.candidates))
        own.fill(UNHOLDABLE, nth * DEPTH_COUNT, (nth + 1) * DEPTH_COUNT);
    });
    slices.set(index, { own });
  }
  return { name: NO_MOVEMENT, slices };
}

/** The view with the candidates that have the printed digits among the others. */
function withPrinted(free: SliceView, given: SliceView, line: Line, hand: HandModel): SliceView {
  if (!given.given) return free;
  const all = sameKeys(free, given) ? free : reduced(given, line, hand);
  const missing = given.candidates.filter(({ name }) => !all.candidates.some((own) => own.name === name));
  if (missing.length === 0 && all === free) return free;
  return { ...given, candidates: [...all.candidates, ...missing], trouble: free.trouble };
}

function sameKeys(one: SliceView, other: SliceView): boolean {
  return one.keys.length === other.keys.length && one.keys.every((key, at) => key === other.keys[at]);
}

/** What the hand can play of the keys that the printed digits leave to it, such as without a held key. */
function reduced({ slice, source, struck }: SliceView, line: Line, hand: HandModel): SliceView {
  const kept = (isStruck: boolean) =>
    (isStruck ? slice.struck : slice.held).filter((_, nth) =>
      source.some((own, at) => own === nth && struck[at] === isStruck),
    );
  const own = { ...slice, struck: kept(true), held: kept(false) };
  return viewLine({ ...line, slices: [{ ...own, index: 0 }] }, hand, false)[0]!;
}

/** Whether the hand can hold the keys that have a digit, without the others. */
function fitsAlone({ slice }: SliceView, line: Line, hand: HandModel): boolean {
  const struck = slice.struck.filter(({ fixed }) => fixed !== undefined);
  if (struck.length === slice.struck.length) return false;
  return viewLine({ ...line, slices: [{ ...slice, struck, index: 0 }] }, hand, true)[0]!.trouble === 'none';
}

function digitsIn(view: SliceView): readonly (Finger | undefined)[] {
  return view.keys.map((_, at) => (view.struck[at] ? view.slice.struck[view.source[at]!]!.fixed : undefined));
}

/** Forbids what has other digits than the printed ones. */
function onlyPrinted(views: readonly SliceView[], given: readonly SliceView[]): Bias {
  return views.map(({ candidates }, at) => {
    const own = given[at]!;
    if (!own.given) return undefined;
    return candidates.map(({ name }) => (isAmong(name, own.candidates) ? 0 : Number.POSITIVE_INFINITY));
  });
}

function isAmong(name: number, candidates: readonly CandidateFingers[]): boolean {
  return candidates.some((own) => own.name === name);
}

/** What a choice has by slice of the line, such as candidates or depths; undefined where it is as printed. */
export interface BySlice {
  at(slice: number): number | undefined;
}

/** Another choice than the printed one. */
export interface OtherChoice {
  readonly path: BySlice;
  readonly depths: BySlice;
}

/** Fingers of a slice under a choice of candidates, from the lowest key of its view up. */
export function fingersAt({ views, printed }: Judged, path: BySlice, at: number): readonly Finger[] {
  return views[at]!.candidates[path.at(at) ?? printed.path[at]!]!.fingers;
}
