import { describe, expect, it } from 'vitest';
import { planContour } from '#core/motion/contour.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { planRoll } from '#core/motion/roll.js';
import { tautPath } from '#core/motion/taut-string.js';
import type { Finger } from '#core/score/model.js';
import { type Given, lineOf, melody, type Step } from './lines.js';

// Worked out by hand from the stated numbers; every threshold is met from both sides.

const uses = ({ line, fingers }: Given) => fingersInUse(line, fingers);
const step = (keys: readonly number[], fingers: readonly Finger[], more: Partial<Step> = {}): Step => ({
  keys,
  fingers,
  ...more,
});

describe('roll', () => {
  const rolls = (steps: readonly Step[]) => {
    const given = lineOf('right', steps);
    return planRoll(given.line, uses(given));
  };
  const single = (digits: string) =>
    rolls([...digits].map((digit, at) => step([60 + at], [Number(digit) as Finger])));

  it('by finger from -1 to 1, the mean of those that strike', () => {
    expect(single('12345').map(({ roll }) => roll)).toEqual([-1, -0.4, 0, 0.4, 1]);
    const chord = rolls([
      step([60, 67], [1, 4]),
      step([60, 64, 67], [1, 2, 4]),
      step([64], [5], { held: [{ key: 60, finger: 1, since: 1 }] }),
    ]);
    expect(chord.map(({ roll }) => roll)).toEqual([-0.3, -1 / 3, 1]);
  });

  it('stays where nothing is struck', () => {
    const held = [{ key: 60, finger: 5, since: 0 }] as const;
    expect(rolls([step([60], [5]), step([], [], { held }), step([], [])])).toEqual([
      { roll: 1, prepare: false },
      { roll: 1, prepare: false },
      { roll: 1, prepare: false },
    ]);
  });

  it('wants preparing for more than 0.7 on in one direction, without the thumb', () => {
    const prepared = (...steps: readonly Step[]) => rolls(steps).map(({ prepare }) => prepare);
    const [two, three, five] = [step([60], [2]), step([62], [3]), step([67], [5])];
    const both = step([65, 67], [4, 5]);
    expect(prepared(two, three, five)).toEqual([false, false, true]);
    // 0 to 0.7 is not more than that.
    expect(prepared(two, three, both)).toEqual([false, false, false]);
    // A repeated finger does not end the direction; a turn back does.
    expect(prepared(two, three, three, five)).toEqual([false, false, false, true]);
    expect(prepared(five, three, five)).toEqual([false, false, false]);
    expect(prepared(step([64], [4]), three, five)).toEqual([false, false, false]);
    // Towards the thumb's side as well: from 1 over 0.4 to -0.4.
    expect(prepared(five, step([64], [4]), two)).toEqual([false, false, true]);
    // The thumb before, or with it, swings.
    expect(prepared(step([55], [1]), two, five)).toEqual([false, false, true]);
    expect(prepared(step([55, 60], [1, 2]), step([57, 70], [1, 5]), five)).toEqual([false, false, false]);
    // After a rest nothing is left to come from.
    expect(prepared(two, three, { ...five, free: 0.15 })).toEqual([false, false, false]);
    expect(prepared(two, three, { ...five, free: 0.14 })).toEqual([false, false, true]);
  });
});

describe('contour', () => {
  const heights = (digits: string, seconds: number) => {
    const given = melody(
      'right',
      [...digits].map((_, at) => 60 + at),
      digits,
      seconds,
    );
    return planContour(given.line, uses(given)).map((mm) => Number(mm.toFixed(4)));
  };

  it('rises 3 mm a finger up to 12 mm in all, less in notes quicker than a quarter of a second, by 0.9 mm at least', () => {
    expect(heights('1231', 0.25)).toEqual([0, 3, 6, 0]);
    expect(heights('1231', 1)).toEqual([0, 3, 6, 0]);
    expect(heights('1231', 0.125)).toEqual([0, 1.5, 3, 0]);
    expect(heights('1231', 0.075)).toEqual([0, 0.9, 1.8, 0]);
    expect(heights('1231', 0.02)).toEqual([0, 0.9, 1.8, 0]);
    expect(heights('123451', 0.25)).toEqual([0, 3, 6, 9, 12, 0]);
    // Five on the way: 12 / 5 each.
    expect(heights('1234541', 0.25)).toEqual([0, 2.4, 4.8, 7.2, 9.6, 12, 0]);
    // What has no thumb after it is level.
    expect(heights('1231234', 0.25)).toEqual([0, 3, 6, 0, 0, 0, 0]);
  });

  it('rises to the first note of a line as after a rest, at any tempo', () => {
    expect(heights('231', 0.5)).toEqual([3, 6, 0]);
    expect(heights('231', 0.125)).toEqual([3, 4.5, 0]);
    // Six before the thumb: 12 / 6 each.
    expect(heights('2345451', 0.25)).toEqual([2, 4, 6, 8, 10, 12, 0]);
    const rest = lineOf('right', [
      step([55], [1], { seconds: 0.125 }),
      step([62], [2], { seconds: 1.125, free: 1 }),
      step([64], [3], { seconds: 0.125 }),
      step([65], [1], { seconds: 0.125 }),
    ]);
    expect(planContour(rest.line, uses(rest))).toEqual([0, 3, 4.5, 0]);
  });

  it('is level in a trill of two keys twice each, and no other figure', () => {
    const turn = (keys: readonly number[], digits: string) => {
      const given = melody('right', keys, digits);
      return planContour(given.line, uses(given));
    };
    expect(turn([59, 62, 64, 62, 64, 60], '123231')).toEqual([0, 0, 0, 0, 0, 0]);
    expect(turn([59, 62, 64, 62, 60], '12321')).toEqual([0, 3, 6, 9, 0]);
    expect(turn([59, 62, 64, 62, 65, 60], '123241')).toEqual([0, 3, 6, 9, 12, 0]);
    expect(turn([59, 62, 64, 65, 64, 60], '123431')).toEqual([0, 3, 6, 9, 12, 0]);
    // Later on the way counts as well.
    expect(turn([59, 65, 62, 64, 62, 64, 60], '1423231')).toEqual([0, 0, 0, 0, 0, 0, 0]);
  });
});

describe('the taut string', () => {
  const path = (...windows: readonly (readonly [time: number, low: number, high: number, rest: number])[]) =>
    tautPath(windows.map(([time, low, high, rest]) => ({ time, low, high, rest })));

  it.each([
    [
      'goes straight to where it must be',
      [
        [0, 0, 0, 0],
        [1, -9, 9, 0],
        [2, 10, 20, 15],
      ],
      [0, 5, 10],
    ],
    [
      'stays where nothing pulls',
      [
        [0, -5, 5, 3],
        [1, -5, 5, 0],
        [2, -5, 5, 0],
      ],
      [3, 3, 3],
    ],
    [
      'bends round a window from above',
      [
        [0, 0, 0, 0],
        [1, -9, 2, 0],
        [2, 10, 20, 15],
      ],
      [0, 2, 10],
    ],
    [
      'and from below',
      [
        [0, 0, 0, 0],
        [1, 7, 9, 8],
        [2, 10, 20, 15],
      ],
      [0, 7, 10],
    ],
    [
      'takes time for distance',
      [
        [0, 0, 0, 0],
        [3, -9, 9, 0],
        [4, 8, 20, 15],
      ],
      [0, 6, 8],
    ],
    [
      'comes back down',
      [
        [0, 0, 0, 0],
        [1, -20, 20, 0],
        [2, -20, -10, -15],
        [3, -20, 20, 0],
      ],
      [0, -5, -10, -10],
    ],
  ] as const)('%s', (_, windows, expected) => {
    expect(path(...windows)).toEqual(expected);
  });

  it('begins at the first window that says something, and is 0 where none does', () => {
    expect(path([0, -9, 9, Number.NaN], [1, -9, 9, 4])).toEqual([4, 4]);
    expect(path([0, -9, 9, Number.NaN], [1, -9, 9, Number.NaN])).toEqual([0, 0]);
  });
});
