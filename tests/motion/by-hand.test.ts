import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { clearanceFindings } from '#core/motion/clearance.js';
import { planContour } from '#core/motion/contour.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { handCrossings } from '#core/motion/hand-crossings.js';
import type { Crossing } from '#core/motion/plan.js';
import { depthReason } from '#core/motion/reason.js';
import { planRoll } from '#core/motion/roll.js';
import { tautPath } from '#core/motion/taut-string.js';
import { thumbCrossings } from '#core/motion/thumb-crossings.js';
import type { TipTable } from '#core/motion/tips.js';
import type { Finger } from '#core/score/model.js';
import { type Given, lineOf, melody, type Step } from './lines.js';

// Worked out by hand from the stated numbers; every threshold is met from both sides.

const hand = handModel('medium');
const uses = ({ line, fingers }: Given) => fingersInUse(line, fingers);
const step = (keys: readonly number[], fingers: readonly Finger[], more: Partial<Step> = {}): Step => ({
  keys,
  fingers,
  ...more,
});

describe('the difficulty of a thumb crossing', () => {
  // White keys lie 23.5 mm apart. The thumb passes 2, 3 and 4 in comfort by 41.125, 27.4167 and 13.7083 mm (three, two and
  // one semitone of 13.7083 mm), each mm beyond costs 0.3.
  const difficulty = (from: number, to: number, digits: string) => {
    const given = melody('right', [from, to], digits);
    const found = thumbCrossings(given.line, uses(given), hand)[1];
    return found && Number(found.difficulty.toFixed(4));
  };

  it.each([
    ['E to F behind 3', 64, 65, '31', 8],
    ['D to E behind 2', 62, 64, '21', 8 + 4],
    ['F to G behind 4: 9.7917 mm beyond comfort', 65, 67, '41', 8 + 1 + 2.9375],
    ['F sharp to G behind 3', 66, 67, '31', 8 - 4],
    ['F to F sharp behind 3', 65, 66, '31', 8 + 12],
    ['C sharp to E flat behind 3: 28.0667 mm, 0.65 beyond', 61, 63, '31', 8 + 6 + 0.195],
    ['F sharp to G behind 4: 15.175 mm, 1.4667 beyond', 66, 67, '41', 8 + 1 - 4 + 0.44],
    ['C to F behind 4: 70.5 mm, 56.7917 beyond', 60, 65, '41', 8 + 1 + 17.0375],
    ['a fifth behind 3: 94 mm, 66.5833 beyond', 60, 67, '31', 8 + 19.975],
    ['a fifth behind 2: 52.875 beyond', 60, 67, '21', 8 + 4 + 15.8625],
    ['F to E over the thumb, 3', 65, 64, '13', 8],
    ['F to E flat over the thumb, 2: white to black', 65, 63, '12', 8 + 4 - 4],
    ['F sharp to F over the thumb, 4: from a black thumb', 66, 65, '14', 8 + 1 + 12],
  ] as const)('%s', (_, from, to, digits, mm) => {
    expect(difficulty(from, to, digits)).toBeCloseTo(mm, 3);
  });

  it('ends where 4 cannot follow the arm, and beyond a fifth', () => {
    expect(difficulty(60, 67, '41')).toBeUndefined();
    expect(difficulty(60, 68, '31')).toBeUndefined();
    expect(difficulty(60, 62, '51')).toBeUndefined();
  });

  const kinds = (steps: readonly Step[]) => {
    const given = lineOf('right', steps);
    return thumbCrossings(given.line, uses(given), hand).map(
      (found) => found && `${found.kind} ${found.from} ${found.to}`,
    );
  };

  it('is none after 0.06 seconds off the keys, unless a finger still holds', () => {
    const lifted = (free: number) => kinds([step([64], [3]), step([65], [1], { free })])[1];
    expect(lifted(0.06)).toBe('thumb-passing 3 1');
    expect(lifted(0.061)).toBeUndefined();
    const holding = [
      step([64], [3]),
      step([65], [1], { free: 0.5, held: [{ key: 64, finger: 3, since: 0 }] }),
    ];
    expect(kinds(holding)[1]).toBe('thumb-passing 3 1');
  });

  it('is that of the furthest finger behind which the thumb goes, and of the nearest that goes over it', () => {
    expect(kinds([step([60, 62], [2, 3]), step([64], [1])])[1]).toBe('thumb-passing 3 1');
    expect(kinds([step([64], [1]), step([60, 62], [2, 3])])[1]).toBe('finger-over 1 2');
  });

  it('is none from chord to chord over more than an octave, or where a finger changes its key', () => {
    const wide = (top: number) => kinds([step([60, 64], [2, 4]), step([62, top], [1, 5])])[1];
    expect(wide(72)).toBe('thumb-passing 2 1');
    expect(wide(73)).toBeUndefined();
    expect(kinds([step([60, 64], [2, 4]), step([62, 65], [1, 4])])[1]).toBeUndefined();
    // What is let go below counts too.
    expect(kinds([step([52, 60], [2, 3]), step([62, 65], [1, 4])])[1]).toBeUndefined();
    expect(kinds([step([53, 60], [2, 3]), step([62, 65], [1, 4])])[1]).toBe('thumb-passing 3 1');
  });
});

describe('whether the arm is clear of the thumb', () => {
  const crossing = (kind: Crossing['kind']): Crossing => ({
    kind,
    from: 3,
    to: 1,
    direction: 'up',
    fromBlack: false,
    toBlack: false,
    difficulty: 8,
  });
  const found = (
    mm: number,
    seconds: number,
    kind: Crossing['kind'] = 'thumb-passing',
    more: Partial<Step> = {},
  ) => {
    const { line } = lineOf('right', [step([60], [3]), step([62], [1], { seconds, ...more })]);
    return clearanceFindings(line, [10, 10 + mm], [undefined, crossing(kind)]);
  };

  it('up to 85 mm, and 700 mm a second', () => {
    expect(found(85, 0.25)).toEqual([]);
    expect(found(-85, 0.25)).toEqual([]);
    expect(found(86, 0.25)).toEqual([
      { slice: 1, message: 'too far: the arm has 86 mm left to be clear of the thumb after 3' },
    ]);
    expect(found(-85.6, 0.25)[0]!.message).toContain('86 mm left');
    expect(found(70, 0.1)).toEqual([]);
    expect(found(71, 0.1)).toEqual([
      {
        slice: 1,
        message: 'too fast: the arm has 71 mm left to be clear of the thumb after 3, 710 mm a second',
      },
    ]);
    // Onsets at once count as a thousandth of a second apart.
    expect(found(1, 0)[0]!.message).toContain('1000 mm a second');
    expect(found(0.5, 0)).toEqual([]);
  });

  it('is asked of a passing thumb on a connected line alone', () => {
    expect(found(100, 0.25, 'finger-over')).toEqual([]);
    expect(found(100, 0.25, 'thumb-passing', { free: 0.15 })).toEqual([]);
    expect(found(100, 0.25, 'thumb-passing', { free: 0.14 })).toHaveLength(1);
  });
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

describe('the reason for a move in depth', () => {
  /** A table in which a finger is uncomfortable by so much at a depth: `{ 2: [at 50, at 60] }`. */
  const table = (mm: Readonly<Record<number, readonly [number, number]>>) =>
    ({
      discomfort: (finger: number, _key: number, depth: number) => mm[finger]![depth === 60 ? 1 : 0],
    }) as unknown as TipTable;
  const why = (
    inwards: boolean,
    all: Readonly<Record<number, readonly [number, number]>>,
    steps: readonly Step[],
  ) => {
    const given = lineOf('right', steps);
    const [from, to] = inwards ? [50, 60] : [60, 50];
    return depthReason(from, to, given.line, uses(given), 0, table(all));
  };

  it('is the finger in use that gains most, by more than 0.3', () => {
    const chord = [step([60, 64], [2, 4])];
    expect(why(true, { 2: [1, 0.5], 4: [1, 0] }, chord)).toMatchObject({
      direction: 'in',
      finger: 4,
      key: 64,
    });
    expect(why(true, { 2: [2, 0.5], 4: [1, 0] }, chord)).toMatchObject({ finger: 2, key: 60 });
    expect(why(true, { 2: [1, 0], 4: [1, 0] }, chord)).toMatchObject({ finger: 2 });
    expect(why(true, { 2: [0.25, 0], 4: [1, 1] }, chord)).toEqual({ direction: 'in', finger: 2 });
    expect(why(true, { 2: [0.375, 0], 4: [1, 1] }, chord)).toMatchObject({
      finger: 2,
      cause: 'off-the-edge',
    });
    expect(why(false, { 2: [0, 1], 4: [0, 0] }, chord)).toMatchObject({ direction: 'out', finger: 2 });
  });

  it('is else the next finger that the move makes ready, or that the arm moves on', () => {
    const two = [step([60], [2]), step([66], [3])];
    expect(why(true, { 2: [0, 0], 3: [1, 0] }, two)).toEqual({
      direction: 'in',
      finger: 2,
      coming: 3,
      cause: 'black-key',
      key: 66,
    });
    expect(why(true, { 2: [0, 0], 3: [0, 1] }, two)).toEqual({ direction: 'in', finger: 2 });
    expect(why(false, { 2: [0, 0], 3: [0, 0] }, two)).toEqual({ direction: 'out', finger: 2 });
    // The finger that strikes moves, not the one that holds; where none strikes, the one that holds.
    const held = [{ key: 55, finger: 1, since: 0 }] as const;
    expect(why(true, { 1: [0, 0], 2: [0, 0] }, [step([60], [2], { held })])).toMatchObject({ finger: 2 });
    expect(why(true, { 1: [0, 0] }, [step([], [], { held })])).toEqual({ direction: 'in', finger: 1 });
    expect(why(true, {}, [step([], [])])).toEqual({ direction: 'in' });
  });

  it.each([
    ['in', 66, 3, 'black-key'],
    ['in', 60, 1, 'hold-for-short-finger'],
    ['in', 60, 5, 'hold-for-short-finger'],
    ['in', 60, 2, 'off-the-edge'],
    ['in', 60, 4, 'off-the-edge'],
    ['in', 66, 1, 'black-key'],
    ['out', 66, 3, 'front-of-black-key'],
    ['out', 62, 3, 'between-black-keys'],
    ['out', 67, 3, 'between-black-keys'],
    ['out', 60, 3, 'beside-black-key'],
    ['out', 64, 3, 'beside-black-key'],
  ] as const)('%s, key %i, finger %i: %s', (direction, key, finger, cause) => {
    const inwards = direction === 'in';
    const all = { [finger]: inwards ? [1, 0] : [0, 1] } as Record<number, [number, number]>;
    expect(why(inwards, all, [step([key], [finger])])).toEqual({ direction, finger, key, cause });
  });
});

describe('hand over hand', () => {
  /** Steps of one hand, a key each at quarters from the start; `seconds` until the key is let go. */
  const hand_ = (
    side: 'right' | 'left',
    notes: readonly (readonly [key: number, quarter: number, seconds: number, finger?: Finger | null])[],
  ): Given => {
    const given = lineOf(
      side,
      notes.map(([key, , , finger = 2]) => step([key], [finger as Finger])),
    );
    return {
      fingers: given.fingers,
      line: {
        ...given.line,
        slices: given.line.slices.map((slice, at) => ({
          ...slice,
          onset: { num: Math.round(notes[at]![1] * 1000), den: 1000 },
          seconds: at === 0 ? 0 : (notes[at]![1] - notes[at - 1]![1]) / 2,
          struck: slice.struck.map((own) => ({ ...own, seconds: notes[at]![2] })),
        })),
      },
    };
  };
  const said = (right: Given, left: Given) => {
    const { right: rights, left: lefts } = handCrossings(right, left);
    return [rights, lefts].map((all) => all.map((found) => found?.kind.slice(5)));
  };
  // Two quarters a second.
  const still = hand_('right', [
    [60, 0, 1],
    [60, 2, 1],
    [60, 4, 1],
  ]);

  it('lasts while both sound: a key of 0.5 seconds one quarter long is gone at the next', () => {
    const crossing = (seconds: number) =>
      said(
        hand_('right', [
          [60, 0, seconds],
          [60, 8, 1],
        ]),
        hand_('left', [
          [48, 0, 0.1],
          [72, 1, 1],
        ]),
      )[1];
    expect(crossing(0.5)).toEqual([undefined, undefined]);
    expect(crossing(0.51)).toEqual([undefined, 'over']);
    // Struck together they sound together, however short.
    expect(
      said(
        hand_('right', [
          [60, 0, 0.01],
          [60, 1, 0.01],
        ]),
        hand_('left', [
          [48, 0, 0.01],
          [72, 1, 0.01],
        ]),
      )[1],
    ).toEqual([undefined, 'over']);
  });

  it('is one wholly beyond the other, by a semitone at least', () => {
    const at = (key: number) =>
      said(
        still,
        hand_('left', [
          [48, 0, 1],
          [key, 2, 1],
          [48, 4, 1],
        ]),
      )[1]![1];
    expect([59, 60, 61].map(at)).toEqual([undefined, undefined, 'over']);
  });

  it('is told once, and again after the hands have parted', () => {
    const left = hand_('left', [
      [48, 0, 1],
      [72, 1, 1],
      [74, 2, 1],
      [48, 3, 1],
      [72, 4, 1],
    ]);
    expect(said(still, left)).toEqual([
      [undefined, 'under', 'under'],
      [undefined, 'over', undefined, undefined, 'over'],
    ]);
  });

  it('belongs to the hand that comes from further away, and tells from where and what it costs', () => {
    const right = hand_('right', [
      [84, 0, 1],
      [60, 2, 1],
    ]);
    const left = hand_('left', [
      [59, 0, 1],
      [62, 2, 1],
    ]);
    const { right: rights, left: lefts } = handCrossings(right, left);
    // C6 to C4: 14 white keys of 23.5 mm.
    expect(rights[1]).toEqual({
      kind: 'hand-over',
      from: 2,
      to: 2,
      direction: 'down',
      fromBlack: false,
      toBlack: false,
      difficulty: expect.closeTo(6 + 0.02 * 14 * 23.5, 9),
    });
    expect(lefts[1]).toMatchObject({ kind: 'hand-under', direction: 'up' });
  });

  it('is none beside a hand that has not begun, or whose keys have no finger', () => {
    const left = hand_('left', [
      [72, 0, 1],
      [74, 1, 1],
    ]);
    expect(said(hand_('right', [[60, 4, 1]]), left)[1]).toEqual([undefined, undefined]);
    expect(said(hand_('right', [[60, 0, 1, null]]), left)[1]).toEqual([undefined, undefined]);
  });
});
