import type { Line } from '../hands/line.js';
import type { MotionPlan } from '../motion/plan.js';
import { checkLineAndPlan } from '../options/allowed.js';
import { type Check, fields, listOf, oneOf, refuse, shaped, text } from '../options/check.js';
import { LANGUAGE_CODES, type Language } from '../options/options.js';

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

const millimetres: Check = (value, name) => {
  if (typeof value !== 'number' || !(value > 0 && value < 10_000))
    refuse(value, name, 'a number above 0 and below 10000');
};

const range: Check = (value, name) => {
  const [from, to, ...more] = Array.isArray(value) ? value : [];
  if (!Number.isFinite(from) || !Number.isFinite(to) || from >= to || more.length > 0)
    refuse(value, name, 'two numbers of mm, the smaller first');
};

const common = { language: oneOf(LANGUAGE_CODES), part: text, title: text };
const ribbon = fields({ ...common, width: millimetres, height: millimetres, range }, ['width']);
const keyboard = fields({ ...common, scale: millimetres });
const places = listOf(shaped({ slice: 'Number', x: 'Number' }, 'a slice and its x'));

/** @throws HandlineError OPTION */
export function checkRibbon(
  line: Line,
  plan: MotionPlan,
  given: readonly SlicePlace[],
  options: RibbonOptions,
): void {
  checkLineAndPlan(line, plan);
  places(given, 'places');
  ribbon(options, '');
  let before = Number.NEGATIVE_INFINITY;
  for (const { slice, x } of given) {
    requireSlice(plan, slice);
    if (!Number.isFinite(x) || x < before) refuse(x, 'x', 'mm from the left edge, in the order of the notes');
    before = x;
  }
}

/** @throws HandlineError OPTION */
export function checkKeyboard(line: Line, plan: MotionPlan, slice: number, options: KeyboardOptions): void {
  checkLineAndPlan(line, plan);
  keyboard(options, '');
  requireSlice(plan, slice);
}

function requireSlice({ slices }: MotionPlan, slice: number): void {
  if (!slices[slice]) refuse(slice, 'slice', `the number of a slice from 0 to ${slices.length - 1}`);
}
