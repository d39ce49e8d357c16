import { SEMITONE_WIDTH } from '../keyboard/key-plan.js';
import { refuse } from '../options/check.js';
import type { Finger } from '../score/model.js';

/**
 * A hand by one number: the largest distance from the tip of 1 to the tip of 5, in mm. Adult spans in the literature
 * run from about 180 to 270 mm (Boyle, Boyle and Booker, Pianist hand spans, 2015, from memory).
 */
export interface HandModel {
  /** From the tip of 1 to that of 5 at their widest, mm. */
  readonly span: number;
  /** Span relative to the medium hand, for which the tables of this room are stated. */
  readonly scale: number;
}

/** mm: fifteen semitones, the practical limit of 1-5 in the published table of `reach`, on the key plan. */
const MEDIUM_SPAN = Math.round(15 * SEMITONE_WIDTH);
/** mm from one preset to the next: a common step between hand sizes is about 20 (from memory). */
const PRESET_STEP = 22;

/** mm */
export const SPAN_PRESETS = {
  small: MEDIUM_SPAN - PRESET_STEP,
  medium: MEDIUM_SPAN,
  large: MEDIUM_SPAN + PRESET_STEP,
} as const;

/** Smallest and largest span accepted, mm: our choice, well beyond adult hands. */
const SPAN_RANGE = [140, 300] as const;

/** A white-key interval that a hand may reach at most: a `9th` is 8 white steps. */
const INTERVAL = /^(7|8|9|1[0-2])th$/;

/** mm by which the span exceeds the distance between the keys' centres at the widest interval: from memory. */
const INTERVAL_MARGIN = 6;
/** mm from one white key to the next. */
const WHITE_STEP = (12 * SEMITONE_WIDTH) / 7;

/**
 * @param span mm, a preset name, or the widest white-key interval reached, such as `9th`
 * @throws HandlineError OPTION
 */
export function handModel(span: number | string = 'medium'): HandModel {
  const mm = millimetres(span);
  if (!Number.isFinite(mm) || mm < SPAN_RANGE[0] || mm > SPAN_RANGE[1]) {
    const range = `${SPAN_RANGE[0]}-${SPAN_RANGE[1]} mm`;
    refuse(span, 'span', `${range}, an interval from 7th to 12th, or small, medium, large`);
  }
  return { span: mm, scale: mm / MEDIUM_SPAN };
}

function millimetres(span: number | string): number {
  if (typeof span !== 'string') return span;
  const text = span.trim().toLowerCase();
  if (text === 'small' || text === 'medium' || text === 'large') return SPAN_PRESETS[text];
  const interval = INTERVAL.exec(text);
  if (interval) return (Number(interval[1]) - 1) * WHITE_STEP + INTERVAL_MARGIN;
  return Number(text.replace(/\s*mm$/, '') || Number.NaN);
}

/** As `naturalTip` gives it for the medium hand, by finger (from memory). */
const TIP_DEPTH = [-40, -6, 0, -5, -22] as const;

/** Depth of a finger's tip relative to that of 3 in a naturally curved hand, mm. */
export function naturalTip(hand: HandModel, finger: Finger): number {
  return TIP_DEPTH[finger - 1]! * hand.scale;
}

/** Fingertip width in mm by finger, with the little room a tip needs beside a black key (from memory). */
const TIP_WIDTH = [26, 20, 20.5, 20, 18] as const;

export function tipWidth(hand: HandModel, finger: Finger): number {
  return TIP_WIDTH[finger - 1]! * Math.sqrt(hand.scale);
}
