import type { Line, Slice } from '../../hands/line.js';
import type { Finger, Hand } from '../../score/model.js';
import { keyOf, type Pitch } from '../theory/pitch.js';

/** Single notes of one hand, evenly one after the other, as the reader of a score would slice them. */
export function lineOf(
  hand: Hand,
  pitches: readonly Pitch[],
  seconds: number,
  digits?: readonly Finger[],
): Line {
  const slices = pitches.map((pitch, index): Slice => {
    const fixed = digits?.[index];
    const before = pitches[index - 1];
    return {
      index,
      onset: { num: index, den: 1 },
      measure: 0,
      grace: false,
      struck: [
        { key: keyOf(pitch), diatonic: pitch.diatonic, notes: [index], seconds, ...(fixed && { fixed }) },
      ],
      held: [],
      released: before ? [keyOf(before)] : [],
      seconds: index === 0 ? 0 : seconds,
      free: 0,
      phraseStart: index === 0,
      onBeat: true,
      rolled: false,
    };
  });
  return { hand, part: 0, slices };
}
