import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import { handCrossings } from '#core/motion/hand-crossings.js';
import { planMotion } from '#core/motion/motion.js';
import { Clock } from '#core/score/tempo.js';
import { SCALES, scale } from '../practice/handbook.js';
import { steps } from './arbitrary.js';
import { type Given, lineOf, melody } from './lines.js';

const hand = handModel();
const crossings = ({ line, fingers }: Given) =>
  planMotion(line, fingers, hand).slices.map((slice) => slice.crossing);

describe('thumb crossings', () => {
  it('are the places where a single line meets its thumb against the order of the fingers, in every scale', () => {
    for (const side of ['right', 'left'] as const) {
      for (const key of Object.keys(SCALES[side])) {
        const { keys, digits } = scale(side, key);
        crossings(melody(side, keys, digits)).forEach((found, at) => {
          const [from, to] = [digits[at - 1], digits[at]];
          const outwards = at > 0 && keys[at]! > keys[at - 1]! === (side === 'right');
          const kind =
            outwards && to === '1' ? 'thumb-passing' : !outwards && from === '1' ? 'finger-over' : undefined;
          expect(found?.kind, `${side} ${key} ${at}`).toBe(at > 0 ? kind : undefined);
          if (!found) return;
          expect(found.from).toBe(Number(from));
          expect(found.to).toBe(Number(to));
          expect(found.direction).toBe(keys[at]! > keys[at - 1]! ? 'up' : 'down');
        });
      }
    }
  });

  it('are easy to a white key behind a black one and hard the other way round (common practice)', () => {
    const difficulty = (keys: readonly number[]) => crossings(melody('right', keys, '1231'))[3]!.difficulty;
    const open = difficulty([59, 61, 63, 64]);
    const level = difficulty([60, 62, 64, 65]);
    const shut = difficulty([62, 64, 65, 66]);
    console.log(
      `thumb behind 3, mm equivalents: black to white ${open}, white to white ${level}, white to black ${shut}`,
    );
    expect(open).toBeLessThan(level);
    expect(level).toBeLessThan(shut);
    expect(crossings(melody('right', [59, 61, 63, 64], '1231'))[3]).toMatchObject({
      fromBlack: true,
      toBlack: false,
    });
  });

  it('happen in arpeggios too, up and down', () => {
    const keys = [48, 52, 55, 60, 64, 67, 72, 67, 64, 60, 55];
    const kinds = crossings(melody('right', keys, '12312353213')).map((own) => own?.kind);
    expect(kinds[3]).toBe('thumb-passing');
    expect(kinds[10]).toBe('finger-over');
    expect(kinds.filter(Boolean)).toHaveLength(2);
  });

  it('do not happen where the hand jumps, rests, plays in position or changes fingers on one key', () => {
    expect(crossings(melody('right', [60, 62, 64, 65, 67], '12345')).filter(Boolean)).toEqual([]);
    expect(crossings(melody('right', [60, 72], '31')).filter(Boolean)).toEqual([]);
    expect(crossings(melody('right', [60, 60, 60], '321')).filter(Boolean)).toEqual([]);
    // From a third to an octave, and from chord to chord.
    const leap = [
      { keys: [64, 67], fingers: [2 as const, 4 as const] },
      { keys: [68, 80], fingers: [1 as const, 5 as const] },
    ];
    expect(crossings(lineOf('right', leap)).filter(Boolean)).toEqual([]);
    const chords = [
      { keys: [64, 69], fingers: [2 as const, 4 as const] },
      { keys: [66, 71], fingers: [1 as const, 4 as const] },
    ];
    expect(crossings(lineOf('right', chords)).filter(Boolean)).toEqual([]);
    // A sixth, and the little finger.
    expect(crossings(melody('right', [60, 69], '31')).filter(Boolean)).toEqual([]);
    expect(crossings(melody('right', [60, 62], '51')).filter(Boolean)).toEqual([]);
    const rest = [
      { keys: [60], fingers: [3 as const] },
      { keys: [62], fingers: [1 as const], free: 0.5 },
    ];
    expect(crossings(lineOf('right', rest)).filter(Boolean)).toEqual([]);
  });

  it('happen in thirds', () => {
    const thirds = [
      { keys: [60, 64], fingers: [2 as const, 4 as const] },
      { keys: [62, 65], fingers: [1 as const, 3 as const] },
    ];
    expect(crossings(lineOf('right', thirds))[1]).toMatchObject({ kind: 'thumb-passing', to: 1 });
  });

  it('are found over a held thumb', () => {
    const given = lineOf('right', [
      { keys: [60, 64], fingers: [1, 3] },
      { keys: [59], fingers: [2], held: [{ key: 60, finger: 1, since: 0 }] },
    ]);
    expect(crossings(given)[1]).toMatchObject({ kind: 'finger-over', from: 1, to: 2, direction: 'down' });
  });

  it('never cost less than nothing', () => {
    fc.assert(
      fc.property(steps(20), (all) => {
        for (const own of crossings(lineOf('right', all))) expect(own?.difficulty ?? 1).toBeGreaterThan(0);
      }),
    );
  });
});

describe('hand over hand', () => {
  // Eighth notes a quarter of a second apart, as `melody` has them.
  const clock = new Clock([{ at: { num: 0, den: 1 }, quartersPerMinute: 120 }]);
  const both = (right: Given, left: Given) => handCrossings(right, left, clock);
  const still = melody('right', [60, 64, 67, 64, 60, 64], '135313');

  it('names the hand that goes over and the one that stays under', () => {
    const left = melody('left', [48, 76, 79, 48, 50, 52], '521532');
    const found = both(still, left);
    expect(found.left.map((own) => own?.kind)).toEqual([
      undefined,
      'hand-over',
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    expect(found.right.map((own) => own?.kind)).toEqual([
      undefined,
      'hand-under',
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    expect(found.left[1]).toMatchObject({ direction: 'up', to: 2 });
  });

  it('mirrors with the hands', () => {
    const left = melody('left', [48, 76, 79, 48, 50, 52], '521532');
    const flip = ({ line, fingers }: Given, hand_: 'right' | 'left'): Given => ({
      line: {
        ...line,
        hand: hand_,
        slices: line.slices.map((slice) => ({
          ...slice,
          struck: slice.struck.map((own) => ({ ...own, key: mirrorKey(own.key) })),
        })),
      },
      fingers,
    });
    const straight = both(still, left);
    const turned = both(flip(left, 'right'), flip(still, 'left'));
    expect(turned.right.map((own) => own?.kind)).toEqual(straight.left.map((own) => own?.kind));
    expect(turned.left.map((own) => own?.kind)).toEqual(straight.right.map((own) => own?.kind));
  });

  it('finds nothing where the hands keep their sides or one has long been gone', () => {
    expect(both(still, melody('left', [48, 50, 52, 53, 55, 57], '543212')).left.filter(Boolean)).toEqual([]);
    const late = melody('left', [48, 50, 52, 53, 55, 76], '543212');
    const later: Given = {
      ...late,
      line: {
        ...late.line,
        slices: late.line.slices.map((slice, at) =>
          at === 5 ? { ...slice, onset: { num: 40, den: 1 } } : slice,
        ),
      },
    };
    expect(both(still, later).left.filter(Boolean)).toEqual([]);
    expect(both(still, lineOf('left', [])).right).toHaveLength(6);
  });
});
