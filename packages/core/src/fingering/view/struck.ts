import { AT_EASE } from './repetitions.js';
import type { SliceView } from './view.js';

/** Keystrokes a second of each pace (`paceOf`): from memory. */
const RATES = [12, 8.5, 6, 4.5, 4, 2, 1] as const;

/** Index of the only struck key, -1 where there are none or several. */
export function onlyStruck({ struck }: SliceView): number {
  const at = struck.indexOf(true);
  return struck.indexOf(true, at + 1) < 0 ? at : -1;
}

/** Whether the one key that is struck was the one struck before. */
export function strikesAgain(before: SliceView, view: SliceView): boolean {
  const was = onlyStruck(before);
  const is = onlyStruck(view);
  return was >= 0 && is >= 0 && before.keys[was] === view.keys[is];
}

/** Keystrokes a second beyond what one finger repeats at ease, 0 or less where there is time. */
export function excessOf({ pace, fresh }: SliceView): number {
  return fresh ? 0 : RATES[pace] - AT_EASE;
}
