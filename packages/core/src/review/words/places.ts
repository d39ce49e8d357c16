import { fill } from '../../messages/fill.js';
import { isUpbeat } from '../../score/beat.js';
import type { Hand } from '../../score/model.js';
import type { ReviewWords } from './words.js';

/** `m. 3`, `upbeat` */
export function measureText({ inMeasure, upbeat }: ReviewWords, measure: string): string {
  return isUpbeat(measure) ? upbeat : fill(inMeasure, { measure });
}

/** `right hand m. 1-4`, `right hand m. 3`, `right hand, upbeat to m. 4`, `right hand, upbeat` */
export function passageText(words: ReviewWords, side: Hand, from: string, to = from): string {
  const hand = words.hands[side];
  if (from === to) return isUpbeat(from) ? `${hand}, ${words.upbeat}` : fill(words.measure, { hand, from });
  return fill(isUpbeat(from) ? words.upbeatTo : words.measures, { hand, from, to });
}
