import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { clearanceFindings } from '#core/motion/clearance.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import type { Crossing } from '#core/motion/plan.js';
import { thumbCrossings } from '#core/motion/thumb-crossings.js';
import type { Finger } from '#core/score/model.js';
import { CROSSING, type Given, lineOf, melody, type Step } from './lines.js';

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
  const found = (
    mm: number,
    seconds: number,
    kind: Crossing['kind'] = 'thumb-passing',
    more: Partial<Step> = {},
  ) => {
    const { line } = lineOf('right', [step([60], [3]), step([62], [1], { seconds, ...more })]);
    return clearanceFindings(line, [10, 10 + mm], [undefined, { ...CROSSING, kind }]);
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
