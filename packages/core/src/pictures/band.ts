import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { Crossing, MotionPlan } from '../motion/plan.js';
import type { SlicePlace } from './options.js';
import { decimal, label, pathOf, type Shape, shape } from './svg.js';

/** Height of a line of small print on paper, mm (about 7 points), and of the row that holds it. */
const SMALL_PRINT = 2.5;
const ROW = 3.6;
/** Width of a letter of small print, mm: a little more than the mean of such a typeface, from memory. */
const LETTER = 1.3;
/** mm between an edge of the band and what lies nearest to it. */
const MARGIN = 0.9;
/** Greatest width of an arc, and least, mm. */
const WIDEST_ARC = 4.5;
/** mm between the tip of an arc and its digits, and from the tip to their end: three letters further. */
const BEFORE_DIGITS = 0.9;
const DIGITS = BEFORE_DIGITS + 3 * LETTER;
const LEAST_ARC = 1.5;
/** Least distance of two marks in one row, mm: nearer ones keep their arc and lose their digits. */
const LEAST_DISTANCE = DIGITS + LEAST_ARC;

/** Where a band lies on the picture, and what its height stands for. */
export interface Band {
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  /** Height of the whole picture. */
  readonly height: number;
  /** The place of a value of the band's range, values beyond it at its edge. */
  readonly y: (value: number) => number;
}

/** A band with a row of small print above it and one below it. */
export function bandOf(width: number, height: number, [from, to]: readonly [number, number]): Band {
  const top = ROW;
  const bottom = ROW + height;
  const y = (value: number): number => {
    const share = Math.min(1, Math.max(0, (value - from) / (to - from)));
    return bottom - MARGIN - share * (height - 2 * MARGIN);
  };
  return { width, top, bottom, height: bottom + ROW, y };
}

/** The band's edges, with what they mean on the left. */
export function frameShapes({ width, top, bottom }: Band, above: string, below: string): Shape[] {
  const edge = (y: number) =>
    shape('path', { d: `M0 ${decimal(y)}H${decimal(width)}`, 'stroke-width': 0.15 });
  return [
    edge(top),
    edge(bottom),
    label(above, 0, top - 1, SMALL_PRINT),
    label(below, 0, bottom + SMALL_PRINT + 0.2, SMALL_PRINT),
  ];
}

/** A point for every place; the line through them is dashed where the hand is off the keys in between. */
export function lineShapes(
  line: Line,
  places: readonly SlicePlace[],
  heightAt: (slice: number) => number,
): Shape[] {
  const runs: (readonly [number, number])[][] = [];
  const lifted: Shape[] = [];
  let last: readonly [number, number] | undefined;
  for (const { slice, x } of places) {
    const point = [x, heightAt(slice)] as const;
    if (last && !isFreshStart(line.slices[slice]!)) runs.at(-1)!.push(point);
    else runs.push([point]);
    if (last && isFreshStart(line.slices[slice]!)) lifted.push(dashed(last, point));
    last = point;
  }
  return [
    ...lifted,
    ...runs
      .filter((points) => points.length > 1)
      .map((points) => shape('path', { d: pathOf(points), class: 'way', 'stroke-width': 0.55 })),
  ];
}

function dashed(from: readonly [number, number], to: readonly [number, number]): Shape {
  return shape('path', {
    d: pathOf([from, to]),
    class: 'lifted',
    'stroke-width': 0.25,
    'stroke-dasharray': '0.8 1.2',
  });
}

/**
 * Crossings: below the band the thumb passing, above it a finger over the thumb, each as an arc with its fingers.
 *
 * @param above what stands above the band on the left, on which no digits are printed
 */
export function crossingShapes(
  { slices }: MotionPlan,
  places: readonly SlicePlace[],
  band: Band,
  above: string,
): Shape[] {
  const shapes: Shape[] = [];
  const lastDigits = { over: above.length * LETTER - WIDEST_ARC, under: Number.NEGATIVE_INFINITY };
  places.forEach(({ slice, x }, nth) => {
    const { crossing } = slices[slice]!;
    if (!crossing) return;
    const row = goesOver(crossing) ? 'over' : 'under';
    const behindDigits = Math.min(lastDigits[row] + DIGITS, x - LEAST_ARC);
    const from = Math.max(x - WIDEST_ARC, places[nth - 1]?.x ?? x - WIDEST_ARC, behindDigits);
    shapes.push(arc(from, x, band, row));
    if (x - lastDigits[row] < LEAST_DISTANCE) return;
    lastDigits[row] = x;
    const y = row === 'over' ? band.top - 1 : band.bottom + SMALL_PRINT + 0.2;
    shapes.push(label(`${crossing.from}–${crossing.to}`, x + BEFORE_DIGITS, y, SMALL_PRINT, { class: row }));
  });
  return shapes;
}

/** The thumb passes below the hand, everything else above what it crosses. */
function goesOver({ kind }: Crossing): boolean {
  return kind === 'finger-over' || kind === 'hand-over';
}

function arc(from: number, to: number, { top, bottom }: Band, row: 'over' | 'under'): Shape {
  const side = row === 'over' ? -1 : 1;
  const y = (row === 'over' ? top : bottom) + side * 0.5;
  const bend = y + side * 3;
  const tip = `M${decimal(to - 0.9)} ${decimal(y + side * 0.5)}L${decimal(to)} ${decimal(y)}L${decimal(to + 0.35)} ${decimal(y + side * 1)}`;
  return shape('path', {
    d: `M${decimal(from)} ${decimal(y)}Q${decimal((from + to) / 2)} ${decimal(bend)} ${decimal(to)} ${decimal(y)}${tip}`,
    class: row,
    'stroke-width': 0.3,
  });
}

/** Crossings among some slices. */
export function countCrossings({ slices }: MotionPlan, places: readonly SlicePlace[]): number {
  return places.filter(({ slice }) => slices[slice]!.crossing).length;
}
