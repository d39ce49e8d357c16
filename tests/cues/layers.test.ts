import { describe, expect, it } from 'vitest';
import { carryCues, contourCues, type LayerCues } from '#core/cues/layer-cues.js';
import { withoutRepeated } from '#core/cues/repeated.js';
import { rollCues } from '#core/cues/roll-cues.js';
import { arms, type Made, made, row } from './made-plans.js';

// Plans written by hand, so that every threshold is met from both sides: 40 mm of the arm, two rising fingers, a turn of 0.7,
// four turns a figure, 0.4 seconds a note.

/** What is said, by slice: `3: then left`. */
const said = (cues: LayerCues): string[] =>
  [...cues.entries()].flatMap(([at, key]) => (key ? [`${at}: ${key}`] : []));

describe('the arm', () => {
  const carried = (places: readonly number[]) => said(carryCues(made(arms(places)).plan));

  it.each([
    [[0, 40], ['0: arm-right']],
    [[0, 39.9], []],
    [[0, -40], ['0: arm-left']],
    [[0, -39.9], []],
    // Two legs the same way are one travel; two that turn are two.
    [[0, 20, 40], ['0: arm-right']],
    [[0, 30, 0], []],
    [[0, 30, 10, 60], ['2: arm-right']],
    [
      [0, 50, 0],
      ['0: arm-right', '1: arm-left'],
    ],
    // It sets out after a rest of the arm, not before it.
    [[0, 0, 45, 45], ['1: arm-right']],
    [[0, 20, 20, 40], []],
    [[5, 5, 5], []],
    [[], []],
  ])('at %j mm: %j', (places, cues) => {
    expect(carried(places)).toEqual(cues);
  });
});

describe('the wrist', () => {
  const raised = (heights: readonly number[]) => said(contourCues(made(row('contour', heights)).plan));

  it.each([
    [
      [0, 1, 2, 0],
      ['1: wrist-rises', '3: wrist-level'],
    ],
    [[0, 1, 0, 0], []],
    [[0, 1, 1, 0], []],
    // It comes level on the first note that is no higher.
    [
      [0, 1, 2, 2, 0],
      ['1: wrist-rises', '3: wrist-level'],
    ],
    // What begins to rise again where it comes down is told of as rising.
    [
      [0, 1, 2, 1, 2, 0],
      ['1: wrist-rises', '3: wrist-rises', '5: wrist-level'],
    ],
    // Up to the last note there is nothing after it.
    [[0, 0, 0, 1, 2], ['3: wrist-rises']],
    [[0, 0, 0, 0, 0, 1], []],
    [[1, 2, 3], ['0: wrist-rises']],
  ])('at %j mm: %j', (heights, cues) => {
    expect(raised(heights)).toEqual(cues);
  });
});

describe('the forearm', () => {
  const turned = (slices: readonly Made[]) => {
    const { line, plan } = made(slices);
    return said(rollCues(line, plan));
  };
  const rolled = (rolls: readonly number[], seconds = 0.25) =>
    turned(row('roll', rolls).map((slice) => ({ ...slice, seconds })));

  it.each([
    [[0, 0.7], ['1: turn-fifth']],
    [[0, 0.69], []],
    [[0, -0.7], ['1: turn-thumb']],
    [[0, -0.69], []],
    // A turn over several notes counts whole, from where it begins.
    [[0, 0.3, 0.8], ['1: turn-fifth']],
    [[0, 0, 0.3, 0.8, 0.8], ['2: turn-fifth']],
    [[0, 0.3, 0.3, 0.8], []],
    // The second way, and back.
    [
      [0, 0.8, 0, 0.8],
      ['1: turn-fifth', '2: turn-thumb', '3: turn-fifth'],
    ],
    // The same side is not told again after a smaller turn back.
    [[0, 0.9, 0.5, 0.5, 1.4], ['1: turn-fifth']],
  ])('rolled %j: %j', (rolls, cues) => {
    expect(rolled(rolls)).toEqual(cues);
  });

  it('swings on in up to 0.75 seconds a note: in slower ones nothing is told, and its side anew behind them', () => {
    expect(rolled([0, 0.8], 0.75)).toEqual(['1: turn-fifth']);
    expect(rolled([0, 0.8], 0.76)).toEqual([]);
    expect(turned([{}, { rollPrepare: true, seconds: 0.76 }])).toEqual([]);
    const slow = row('roll', [0, 0.9, 0.5, 0.5, 1.4]);
    expect(turned(slow.map((slice, at) => (at === 3 ? { ...slice, seconds: 0.76 } : slice)))).toEqual([
      '1: turn-fifth',
      '4: turn-fifth',
    ]);
  });

  it('is told its side anew after a rest, and that no swing is left where there is none', () => {
    const rolls = row('roll', [0, 0.9, 0.5, 0.5, 1.4]);
    const rested = rolls.map((slice, at) => (at === 3 ? { ...slice, free: 0.2 } : slice));
    expect(turned(rested)).toEqual(['1: turn-fifth', '4: turn-fifth']);
    expect(turned([{}, { rollPrepare: true }, {}])).toEqual(['1: turn-afresh']);
    expect(turned([{}, { roll: 0.8, rollPrepare: true }])).toEqual(['1: turn-fifth']);
  });

  /** Each roll on a key of its own, as the right hand turns. */
  const between = (rolls: readonly number[]): Made[] =>
    rolls.map((roll) => ({ roll, key: 60 + Math.round(10 * roll) }));
  const rolledBetween = (rolls: readonly number[], seconds = 0.25) =>
    turned(between(rolls).map((slice) => ({ ...slice, seconds })));

  it('rotates where four turns follow each other, in at most 0.4 seconds a note', () => {
    expect(rolledBetween([0, 0.1, 0, 0.1, 0])).toEqual(['0: rotate']);
    expect(rolledBetween([0, 0.1, 0, 0.1])).toEqual([]);
    expect(rolledBetween([0, 0.1, 0, 0.1, 0], 0.4)).toEqual(['0: rotate']);
    expect(rolledBetween([0, 0.1, 0, 0.1, 0], 0.41)).toEqual([]);
    // Two turns to one side, or none, end the figure.
    expect(rolledBetween([0, 0.1, 0, 0.1, 0.2])).toEqual([]);
    expect(rolledBetween([0, 0.1, 0, 0, 0.1, 0])).toEqual([]);
    // So does a rest.
    const rests = between([0, 0.1, 0, 0.1, 0]).map((slice, at) =>
      at === 3 ? { ...slice, free: 0.2 } : slice,
    );
    expect(turned(rests)).toEqual([]);
  });

  it('rotates where one of two notes comes back, or each pair is an octave, however wide the turns', () => {
    const rolls = [0, 0.7, 0, 0.7, 0, 0.7];
    const across = (keys: readonly number[], roll: readonly number[] = rolls) =>
      turned(keys.map((key, at) => ({ key, roll: roll[at]!, seconds: 0.25 }))).includes('0: rotate');
    expect(across([60, 67, 60, 67, 60, 67])).toBe(true);
    expect(across([60, 67, 64, 67, 59, 67])).toBe(true);
    expect(across([60, 67, 64, 67, 62, 69])).toBe(true);
    expect(across([60, 72, 62, 74, 64, 76])).toBe(true);
    // Broken sixths, a line that turns about, another key each time.
    expect(across([60, 69, 62, 71, 64, 72])).toBe(false);
    expect(across([72, 74, 67, 77, 76, 79])).toBe(false);
    // A leap beyond an octave, one key, and keys that go against the turn.
    expect(across([60, 72, 60, 72, 60, 72])).toBe(true);
    expect(across([60, 73, 60, 73, 60, 73])).toBe(false);
    expect(across([60, 60, 60, 60, 60, 60])).toBe(false);
    expect(across([67, 60, 67, 60, 67, 60])).toBe(false);
  });

  it('has its side told again after a figure, and the figure once', () => {
    expect(rolledBetween([0, 0.8, 0, 0.8, 0, 0, 0.8])).toEqual(['0: rotate', '6: turn-fifth']);
    expect(rolledBetween([0, 0.8, 0.8, 0, 0.8, 0, 0.8, 0.8])).toEqual(['1: turn-fifth', '2: rotate']);
  });
});

describe('a cue that comes back', () => {
  const told = (measures: readonly number[], keys: readonly number[] = []) => {
    const { line, plan } = made(
      measures.flatMap((measure, at) => [
        { measure, key: 50 },
        { measure, key: keys[at] ?? 60 },
      ]),
    );
    return said(
      withoutRepeated(
        line,
        plan,
        measures.flatMap(() => [undefined, 'arm-right']),
      ),
    );
  };

  it('with the same move is left out within two measures, counted from the last time', () => {
    expect(told([0, 2])).toEqual(['1: arm-right']);
    expect(told([0, 3])).toEqual(['1: arm-right', '3: arm-right']);
    expect(told([4, 5])).toEqual(['1: arm-right']);
    expect(told([0, 2, 4, 6])).toEqual(['1: arm-right']);
    expect(told([0, 2, 5])).toEqual(['1: arm-right', '5: arm-right']);
  });

  it('is told for another move, from or to other keys or fingers', () => {
    expect(told([0, 0], [60, 62])).toEqual(['1: arm-right', '3: arm-right']);
    const moves = (slices: readonly Made[]) => {
      const { line, plan } = made(slices);
      return said(
        withoutRepeated(
          line,
          plan,
          slices.map((_, at) => (at % 2 === 1 ? 'rotate' : undefined)),
        ),
      );
    };
    expect(moves([{ key: 50 }, {}, { key: 52 }, {}])).toEqual(['1: rotate', '3: rotate']);
    expect(moves([{ finger: 1 }, {}, { finger: 3 }, {}])).toEqual(['1: rotate', '3: rotate']);
    expect(moves([{}, { finger: 4 }, {}, { finger: 5 }])).toEqual(['1: rotate', '3: rotate']);
  });

  it('leaves out what would be said twice in a row without it', () => {
    const again = (keys: LayerCues, places: readonly number[], more: Readonly<Record<number, Made>> = {}) => {
      const { line, plan } = made(places.map((key, at) => ({ key, ...more[at] })));
      return said(withoutRepeated(line, plan, keys));
    };
    const thumb = ['turn-thumb', 'turn-fifth', 'turn-thumb'] as const;
    expect(again([undefined, ...thumb], [60, 62, 64, 65])).toEqual([
      '1: turn-thumb',
      '2: turn-fifth',
      '3: turn-thumb',
    ]);
    // The second turn away is the first one over again.
    const keys: LayerCues = [undefined, 'turn-fifth', 'turn-thumb', undefined, 'turn-fifth', 'turn-thumb'];
    const back = [60, 62, 60, 60, 62, 67];
    expect(again(keys, back)).toEqual(['1: turn-fifth', '2: turn-thumb']);
    expect(again(keys, back, { 3: { free: 0.2 } })).toEqual([
      '1: turn-fifth',
      '2: turn-thumb',
      '5: turn-thumb',
    ]);
    // The wrist is level to begin with; a rise that is told has its end told.
    expect(again([undefined, 'wrist-level'], [60, 62])).toEqual([]);
    const rises: LayerCues = [
      undefined,
      'wrist-rises',
      'wrist-level',
      undefined,
      'wrist-rises',
      'wrist-level',
    ];
    expect(again(rises, [60, 62, 64, 60, 65, 64])).toEqual([
      '1: wrist-rises',
      '2: wrist-level',
      '4: wrist-rises',
      '5: wrist-level',
    ]);
    expect(again(rises, [60, 62, 64, 60, 62, 65])).toEqual(['1: wrist-rises', '2: wrist-level']);
    const ends: LayerCues = [undefined, 'wrist-rises', 'wrist-level', 'wrist-rises', 'wrist-level'];
    expect(again(ends, [60, 62, 64, 62, 64])).toHaveLength(4);
  });

  it('of another kind is told', () => {
    const { line, plan } = made([{}, {}, {}]);
    expect(said(withoutRepeated(line, plan, [undefined, 'turn-thumb', 'turn-fifth']))).toEqual([
      '1: turn-thumb',
      '2: turn-fifth',
    ]);
    expect(said(withoutRepeated(line, plan, ['rotate', 'rotate', 'rotate']))).toEqual([
      '0: rotate',
      '1: rotate',
    ]);
  });
});
