import type { HandModel } from '../../../anatomy/hand.js';
import type { Finger } from '../../../score/model.js';
import { AUGMENTED_SECOND } from '../../view/interval.js';
import type { Surroundings } from '../../view/surroundings.js';
import type { SliceView } from '../../view/view.js';
import type { Block } from './blocks.js';

/** Receives the features that a term counts. */
export interface Sink {
  /** Adds `value` of a feature; the cost is the sum of weight x value over all features. */
  add(feature: number, value: number): void;
}

/** Counts features of one step, for any fingers. */
export interface PairCount {
  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void;
}

/** Counts features of one chain, for any fingers. */
export interface TripleCount {
  count(a: readonly Finger[], b: readonly Finger[], c: readonly Finger[], sink: Sink): void;
}

/**
 * One named part of the cost. A term sees a slice with its fingers, two slices in a row, or three. It only counts
 * features; their weights are stated elsewhere (`weights.ts`). Features are numbered from 0 within a term.
 */
export interface Term {
  readonly name: string;
  /** Its features. */
  readonly blocks: readonly Block[];
  /** Weights that are stated, not fitted: mm equivalents by feature. */
  readonly stated?: readonly number[];
  readonly slice?: (
    view: SliceView,
    fingers: readonly Finger[],
    surroundings: Surroundings,
    sink: Sink,
    hand: HandModel,
  ) => void;
  /** Prepares two slices for counting with any fingers; undefined where there is nothing to count. */
  readonly pair?: (before: SliceView, view: SliceView, hand: HandModel) => PairCount | undefined;
  /** The same for three slices. */
  readonly triple?: (first: SliceView, second: SliceView, third: SliceView) => TripleCount | undefined;
}

/** Habits are what editors print; all other terms are mechanics, whose weights are never negative. */
export function isHabit({ name }: Term): boolean {
  return name.startsWith('habit');
}

/** Numbers of ordered finger pairs and triples. */
export const FINGER_PAIRS = 25;
export const FINGER_TRIPLES = 125;

/** Index of a finger pair, 0 ... 24. */
export function pairOf(a: Finger, b: Finger): number {
  return (a - 1) * 5 + b - 1;
}

/** True for two slices of one key each. */
export function areSingle(before: SliceView, view: SliceView): boolean {
  return before.keys.length === 1 && view.keys.length === 1;
}

const WIDEST = 15;
/** Number of signed intervals distinguished: -15 ... 15 semitones, wider ones counted as 15, and augmented seconds. */
export const INTERVALS = 2 * WIDEST + 3;

/**
 * Index of an interval, 0 ... `INTERVALS` - 1.
 *
 * @param interval semitones, up positive, or `AUGMENTED_SECOND` as `intervalBetween` gives it
 */
export function intervalIndex(interval: number): number {
  if (Math.abs(interval) === AUGMENTED_SECOND) return interval > 0 ? INTERVALS - 1 : INTERVALS - 2;
  return Math.max(-WIDEST, Math.min(WIDEST, interval)) + WIDEST;
}

export function colour(black: boolean | undefined): number {
  return black ? 1 : 0;
}
