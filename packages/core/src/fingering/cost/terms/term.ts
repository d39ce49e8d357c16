import type { HandModel } from '../../../anatomy/hand.js';
import type { Finger } from '../../../score/model.js';
import type { RunPlace } from '../../view/runs.js';
import type { SliceView } from '../../view/view.js';
import { AUGMENTED_SECOND } from './way.js';

/** What surrounds a slice, as seen by the terms that look ahead. */
export interface Outlook extends RunPlace {
  /** Semitones that the music goes below and above before it leaves an octave: ahead, behind, and the wider of both. */
  readonly ahead: readonly [number, number];
  readonly behind: readonly [number, number];
  readonly around: readonly [number, number];
  /** Notes of one direction that lead here and that follow, -6 (falling) ... 6 (rising). */
  readonly ledBy: number;
  readonly leadsTo: number;
  /** Colours of the lowest keys of the slices from two before to two after, a bit each, 1 = black. */
  readonly colours: number;
  /** Strides of the highest keys (`strideOf`) back to the slice before and on to the slice after. */
  readonly strideIn: number;
  readonly strideOut: number;
}

/** Takes what terms count. */
export interface Sink {
  /** Adds `value` of a feature; the cost is the sum of weight x value over all features. */
  add(feature: number, value: number): void;
}

/** Two slices as a term looks at them. */
export interface PairCount {
  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void;
}

/** Three slices as a term looks at them. */
export interface TripleCount {
  count(a: readonly Finger[], b: readonly Finger[], c: readonly Finger[], sink: Sink): void;
}

/**
 * One named part of the cost. A term sees a slice with its fingers, two neighbouring slices, or three; it only counts,
 * the weights lie apart (`weights.ts`). Features are numbered from 0 within a term.
 */
export interface Term {
  readonly name: string;
  /** Number of features. */
  readonly size: number;
  readonly slice?: (
    view: SliceView,
    fingers: readonly Finger[],
    outlook: Outlook,
    sink: Sink,
    hand: HandModel,
  ) => void;
  /** Looks at two slices once and counts for all their fingers; undefined where there is nothing to count. */
  readonly pair?: (before: SliceView, view: SliceView, hand: HandModel) => PairCount | undefined;
  /** The same for three slices. */
  readonly triple?: (first: SliceView, second: SliceView, third: SliceView) => TripleCount;
}

/** Index of a finger pair, 0 ... 24. */
export function pairOf(a: Finger, b: Finger): number {
  return (a - 1) * 5 + b - 1;
}

/** True for two slices of one key each. */
export function areSingle(before: SliceView, view: SliceView): boolean {
  return before.keys.length === 1 && view.keys.length === 1;
}

const WIDEST = 15;
/** Number of signed intervals told apart: -15 ... 15 semitones, wider ones taken as 15, and augmented seconds. */
export const INTERVALS = 2 * WIDEST + 3;

/** @param way semitones, or `AUGMENTED_SECOND` as `wayOf` gives it */
export function intervalOf(way: number): number {
  if (Math.abs(way) === AUGMENTED_SECOND) return way > 0 ? INTERVALS - 1 : INTERVALS - 2;
  return Math.max(-WIDEST, Math.min(WIDEST, way)) + WIDEST;
}

export function colour(black: boolean | undefined): number {
  return black ? 1 : 0;
}

/** Number of strides told apart. */
export const STRIDES = 7;
/** The stride to the same key. */
const NONE = 3;

/**
 * Interval by rough size, 0 ... 6: down by a leap, by a middle interval, by a step, none, and up likewise.
 *
 * @param way semitones, or `AUGMENTED_SECOND`, which is a step
 * @param middle semitones of the widest middle interval; by default a third
 */
export function strideOf(way: number, middle = 4): number {
  const size = Math.abs(way);
  const wide = size === 0 ? 0 : size <= 2 || size === AUGMENTED_SECOND ? 1 : size <= middle ? 2 : 3;
  return NONE + Math.sign(way) * wide;
}

/** True for a stride by step, up or down. */
export function isStep(stride: number): boolean {
  return Math.abs(stride - NONE) === 1;
}
