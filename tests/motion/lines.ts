import type { Line, Slice } from '#core/hands/line.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import type { GivenFingers } from '#core/motion/fingers-in-use.js';
import type { Crossing } from '#core/motion/plan.js';
import type { Finger, Hand, Measure } from '#core/score/model.js';

/** A crossing of the thumb. */
export const CROSSING: Crossing = {
  kind: 'thumb-passing',
  from: 3,
  to: 1,
  direction: 'up',
  fromBlack: false,
  toBlack: false,
  difficulty: 8,
};

/** A note or chord of a test line: keys ascending with their fingers; `held` as in `Slice.held`. */
export interface Step {
  readonly keys: readonly number[];
  readonly fingers: readonly Finger[];
  readonly seconds?: number;
  readonly free?: number;
  readonly phraseStart?: boolean;
  readonly held?: readonly { readonly key: number; readonly finger: Finger; readonly since: number }[];
}

export interface Given {
  readonly line: Line;
  readonly fingers: GivenFingers;
}

/** Eighth notes in 4/4, `seconds` apart where a step does not say otherwise. */
export function lineOf(hand: Hand, steps: readonly Step[], seconds = 0.25): Given {
  const slices = steps.map((step, index): Slice => {
    const apart = index === 0 ? 0 : (step.seconds ?? seconds);
    return {
      index,
      onset: { num: index, den: 2 },
      measure: Math.floor(index / 8),
      grace: false,
      struck: step.keys.map((key, note) => ({ key, notes: [index * 10 + note], seconds: apart })),
      held: (step.held ?? []).map(({ key, since }) => ({ key, notes: [], since, seconds: apart })),
      released: steps[index - 1]?.keys ?? [],
      seconds: apart,
      free: step.free ?? 0,
      phraseStart: step.phraseStart ?? index === 0,
      onBeat: index % 2 === 0,
      rolled: false,
    };
  });
  const fingers = {
    slices: steps.map((step) => ({
      struck: step.fingers,
      held: (step.held ?? []).map((held) => held.finger),
    })),
  };
  return { line: { hand, part: 0, slices }, fingers };
}

/** One note a step; fingers as a string of digits. */
export function melody(hand: Hand, keys: readonly number[], digits: string, seconds = 0.25): Given {
  if (keys.length !== digits.length) throw new RangeError(`${keys.length} keys, ${digits.length} digits`);
  const steps = keys.map((key, at) => ({ keys: [key], fingers: [Number(digits[at]) as Finger] }));
  return lineOf(hand, steps, seconds);
}

/** The same steps mirrored about D for the other hand. */
export function mirrored(steps: readonly Step[]): readonly Step[] {
  return steps.map((step) => ({
    ...step,
    keys: step.keys.map(mirrorKey).reverse(),
    fingers: [...step.fingers].reverse(),
    ...(step.held && { held: step.held.map((held) => ({ ...held, key: mirrorKey(held.key) })).reverse() }),
  }));
}

/** Measures of 4/4 enough for a line of `lineOf`. */
export function measuresFor(line: Line): readonly Measure[] {
  const count = Math.ceil(line.slices.length / 8);
  return Array.from({ length: count }, (_, index) => ({
    index,
    number: String(index + 1),
    start: { num: index * 4, den: 1 },
    length: { num: 4, den: 1 },
    span: { start: 0, end: 0 },
    line: 1,
    column: 1,
    beat: { num: 1, den: 1 },
    unit: { num: 1, den: 1 },
    nominal: { num: 4, den: 1 },
    implicit: false,
  }));
}
