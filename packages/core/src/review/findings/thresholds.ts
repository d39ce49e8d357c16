import type { Thresholds } from '../../options/review-options.js';

/** Levels of a finding, the gravest first. */
export const LEVELS = ['worth changing', 'worth a look', 'remark'] as const;
/** How grave a finding is. */
export type Level = (typeof LEVELS)[number];

/**
 * Our choice: a white key's width is 23.5 mm. One digit is to save a quarter of it, and so is a remark; what is worth a look
 * nearly two keys' widths, what is worth changing nearly four.
 */
export const THRESHOLDS: Thresholds = { digit: 6, remark: 6, look: 40, change: 90 };

export function levelOf(saved: number, { look, change }: Thresholds): Level {
  if (saved >= change) return 'worth changing';
  return saved >= look ? 'worth a look' : 'remark';
}
