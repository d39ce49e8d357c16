import { describe, expect, it } from 'vitest';
import { handCrossings } from '#core/motion/hand-crossings.js';
import type { Finger } from '#core/score/model.js';
import { Clock } from '#core/score/tempo.js';
import { type Given, lineOf, type Step } from './lines.js';

// Worked out by hand from the stated numbers; every threshold is met from both sides.

const step = (keys: readonly number[], fingers: readonly Finger[], more: Partial<Step> = {}): Step => ({
  keys,
  fingers,
  ...more,
});

/** Two quarters a second. */
const CLOCK = new Clock([{ at: { num: 0, den: 1 }, quartersPerMinute: 120 }]);

describe('hand over hand', () => {
  /** Steps of one hand, a key each at quarters from the start; `seconds` until the key is let go. */
  const play = (
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
    const { right: rights, left: lefts } = handCrossings(right, left, CLOCK);
    return [rights, lefts].map((all) => all.map((found) => found?.kind.slice(5)));
  };
  const still = play('right', [
    [60, 0, 1],
    [60, 2, 1],
    [60, 4, 1],
  ]);

  it('lasts while both sound: a key of 0.5 seconds one quarter long is gone at the next', () => {
    const crossing = (seconds: number) =>
      said(
        play('right', [
          [60, 0, seconds],
          [60, 8, 1],
        ]),
        play('left', [
          [48, 0, 0.1],
          [72, 1, 1],
        ]),
      )[1];
    expect(crossing(0.5)).toEqual([undefined, undefined]);
    expect(crossing(0.51)).toEqual([undefined, 'over']);
    // Struck together they sound together, however short.
    expect(
      said(
        play('right', [
          [60, 0, 0.01],
          [60, 1, 0.01],
        ]),
        play('left', [
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
        play('left', [
          [48, 0, 1],
          [key, 2, 1],
          [48, 4, 1],
        ]),
      )[1]![1];
    expect([59, 60, 61].map(at)).toEqual([undefined, undefined, 'over']);
  });

  it('is told once, and again after the hands have parted', () => {
    const left = play('left', [
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
    const right = play('right', [
      [84, 0, 1],
      [60, 2, 1],
    ]);
    const left = play('left', [
      [59, 0, 1],
      [62, 2, 1],
    ]);
    const { right: rights, left: lefts } = handCrossings(right, left, CLOCK);
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
    const left = play('left', [
      [72, 0, 1],
      [74, 1, 1],
    ]);
    expect(said(play('right', [[60, 4, 1]]), left)[1]).toEqual([undefined, undefined]);
    expect(said(play('right', [[60, 0, 1, null]]), left)[1]).toEqual([undefined, undefined]);
  });
});
