import type { Line } from '../hands/line.js';
import type { MotionPlan } from '../motion/plan.js';
import { checkLanguage, checkLineAndPlan } from '../options/allowed.js';
import { refuse } from '../options/check.js';
import type { Language } from '../options/options.js';

/** A slice of a line, and where its notes stand on the page: mm from the left edge of the picture. */
export interface SlicePlace {
  /** Index in `Line.slices`. */
  readonly slice: number;
  /** mm from the left edge of the picture. */
  readonly x: number;
}

/** What `depthRibbon` and `carryLine` take. */
export interface RibbonOptions {
  /** Width of the picture, mm: that of the system under which it lies. */
  readonly width: number;
  /** Height of the band that the line moves in, mm; the picture is a little higher. Default 12, for the
   * carry line 14. */
  readonly height?: number;
  /**
   * What the lower and the upper edge of the band stand for, in mm: depth from the keys' front edge, or for the carry line
   * mm from D4. Ribbons that share it can be compared. Default: what the slices need.
   */
  readonly range?: readonly [from: number, to: number];
  /** Default en. */
  readonly language?: Language;
  /** Name of the part, where a page shows several: it stands before the hand, in print too, a long one cut in its middle. */
  readonly part?: string;
  /** Replaces the picture's own title for screen readers. */
  readonly title?: string;
}

/** What `keyboardView` takes. */
export interface KeyboardOptions {
  /** mm on paper for a mm of the keyboard. Default 0.3: an octave is 49 mm wide. */
  readonly scale?: number;
  /** Default en. */
  readonly language?: Language;
  /** Name of the part, where a page shows several: it stands before the hand in the title. */
  readonly part?: string;
  /** Replaces the picture's own title for screen readers. */
  readonly title?: string;
}

/** @throws HandlineError OPTION */
export function checkRibbon(
  line: Line,
  plan: MotionPlan,
  places: readonly SlicePlace[],
  options: RibbonOptions,
): void {
  checkLineAndPlan(line, plan);
  checkLanguage(options.language);
  requireLength(options.width, 'width');
  if (options.height !== undefined) requireLength(options.height, 'height');
  const { range } = options;
  if (range !== undefined && !(Number.isFinite(range[0]) && Number.isFinite(range[1]) && range[0] < range[1]))
    refuse(range, 'range', 'two numbers of mm, the smaller first');
  let before = Number.NEGATIVE_INFINITY;
  for (const { slice, x } of places) {
    requireSlice(plan, slice);
    if (!Number.isFinite(x) || x < before) refuse(x, 'x', 'mm from the left edge, in the order of the notes');
    before = x;
  }
}

/** @throws HandlineError OPTION */
export function checkKeyboard(line: Line, plan: MotionPlan, slice: number, options: KeyboardOptions): void {
  checkLineAndPlan(line, plan);
  checkLanguage(options.language);
  requireSlice(plan, slice);
  if (options.scale !== undefined) requireLength(options.scale, 'scale');
}

function requireSlice({ slices }: MotionPlan, slice: number): void {
  if (!slices[slice]) refuse(slice, 'slice', `the number of a slice from 0 to ${slices.length - 1}`);
}

function requireLength(value: unknown, name: string): void {
  if (typeof value !== 'number' || !(value > 0 && value < 10_000))
    refuse(value, name, 'a number above 0 and below 10000');
}
