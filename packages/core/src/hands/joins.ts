import { add, compare, equal, toNumber } from '../numeric/fraction.js';
import type { Measure, Part, Stretch } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import type { Line, Slice } from './line.js';

/** Two slices, by index, that are played one after the other though not printed so: a repeat, a volta, a jump. */
export interface Join {
  /** Index of the slice played first. */
  readonly from: number;
  /** Index of the slice played next. */
  readonly to: number;
  /** Seconds from one onset to the other. */
  readonly seconds: number;
  /** Seconds of these during which the hand holds no key. */
  readonly free: number;
}

/** Where playing order departs from print. */
export interface Flow {
  /** Repeats, voltas and jumps. */
  readonly joins: readonly Join[];
  /** Indices of slices that are never played right after the slice printed before them. */
  readonly cuts: ReadonlySet<number>;
}

/** By measure: its first and last slice; measures without slices are left out. */
function slicesByMeasure({ slices }: Line): ReadonlyMap<number, readonly [number, number]> {
  const found = new Map<number, [number, number]>();
  for (const { measure, index } of slices) {
    const range = found.get(measure);
    if (range) range[1] = index;
    else found.set(measure, [index, index]);
  }
  return found;
}

function isWhole({ from, to }: Stretch, { start, length }: Measure): boolean {
  return equal(from, start) && equal(to, add(start, length));
}

function isAsPrinted({ playingOrder, measures }: Part): boolean {
  for (let at = 0; at < playingOrder.length; at++) {
    const stretch = playingOrder[at]!;
    if (stretch.measure !== at || !isWhole(stretch, measures[at]!)) return false;
  }
  return true;
}

/** The measure's slices that a stretch plays; at an inner barline a slice belongs to what begins there. */
function rangeIn(
  { from, to }: Stretch,
  { start, length }: Measure,
  { slices }: Line,
  range: readonly [number, number] | undefined,
): readonly [number, number] | undefined {
  if (!range) return undefined;
  let [first, last] = range;
  if (!equal(from, start)) while (first <= last && compare(slices[first]!.onset, from) < 0) first += 1;
  if (!equal(to, add(start, length)))
    while (last >= first && compare(slices[last]!.onset, to) >= 0) last -= 1;
  return first <= last ? [first, last] : undefined;
}

/**
 * The joins and cuts of a line in the part's playing order, each join once however often it is played; undefined where
 * the part is played as it is printed.
 */
export function playedFlow(line: Line, part: Part, clock: Clock): Flow | undefined {
  const { playingOrder, measures } = part;
  if (isAsPrinted(part)) return undefined;
  const byMeasure = slicesByMeasure(line);
  const joins = new Map<string, Join>();
  const followed = new Set<number>();
  const reached = new Set<number>();
  let last: Slice | undefined;
  let seconds = 0;
  for (const stretch of playingOrder) {
    const [begins, ends] = [clock.secondsAt(toNumber(stretch.from)), clock.secondsAt(toNumber(stretch.to))];
    const range = rangeIn(stretch, measures[stretch.measure]!, line, byMeasure.get(stretch.measure));
    if (!range) {
      seconds += ends - begins;
      continue;
    }
    const first = line.slices[range[0]]!;
    reached.add(first.index);
    if (last?.index === first.index - 1) followed.add(first.index);
    else if (last) {
      const apart = Math.max(0, seconds + clock.secondsAt(toNumber(first.onset)) - begins);
      const held = Math.max(...[...last.struck, ...last.held].map((key) => key.seconds));
      const join = { from: last.index, to: first.index, seconds: apart, free: Math.max(0, apart - held) };
      const id = `${join.from} ${join.to}`;
      if (!joins.has(id)) joins.set(id, join);
    }
    for (let index = range[0] + 1; index <= range[1]; index++) followed.add(index);
    last = line.slices[range[1]]!;
    seconds = ends - clock.secondsAt(toNumber(last.onset));
  }
  const cuts = [...reached].filter((index) => index > 0 && !followed.has(index));
  return { joins: [...joins.values()], cuts: new Set(cuts) };
}

/**
 * A line as it is played: where a slice never follows the one printed before it, as at a second ending, the hand comes from
 * elsewhere and makes a fresh start.
 */
export function asPlayed(line: Line, flow: Flow | undefined): Line {
  if (!flow || flow.cuts.size === 0) return line;
  const slices = line.slices.map((slice) =>
    flow.cuts.has(slice.index) ? { ...slice, phraseStart: true } : slice,
  );
  return { ...line, slices };
}
