import { describe, expect, it } from 'vitest';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { depthReason } from '#core/motion/reason.js';
import type { TipTable } from '#core/motion/tips.js';
import type { Finger } from '#core/score/model.js';
import { type Given, lineOf, type Step } from './lines.js';

// Worked out by hand from the stated numbers; every threshold is met from both sides.

const uses = ({ line, fingers }: Given) => fingersInUse(line, fingers);
const step = (keys: readonly number[], fingers: readonly Finger[], more: Partial<Step> = {}): Step => ({
  keys,
  fingers,
  ...more,
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
