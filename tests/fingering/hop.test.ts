import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { hop } from '#core/fingering/cost/terms/hop.js';
import { viewLine } from '#core/fingering/view/view.js';
import type { Finger } from '#core/score/model.js';
import { type Happening, lineOf, type Press } from './lines.js';

const model = handModel();

const press = (key: number, holds = 0): Press => ({ key, holds, pedalled: false });
const together = (...presses: readonly Press[]): Happening => lasting(0.3, ...presses);
const lasting = (seconds: number, ...presses: readonly Press[]): Happening => ({
  presses,
  seconds,
  rest: 0,
  phraseStart: false,
  grace: false,
  onBeat: false,
});

/** Features counted from the last slice but one to the last, right hand, with how often. */
function weighed(events: readonly Happening[], from: readonly Finger[], to: readonly Finger[]) {
  const [before, view] = viewLine(lineOf('right', events), model, false).slice(-2);
  const found: (readonly [feature: number, times: number])[] = [];
  hop.pair!(before!, view!, model)?.count(from, to, { add: (...own) => void found.push(own) });
  return found;
}

/** Features counted from the last slice but one to the last, right hand, moderate pace. */
function counted(events: readonly Happening[], from: readonly Finger[], to: readonly Finger[]): number[] {
  return weighed(events, from, to).flatMap(([feature, times]) => new Array<number>(times).fill(feature));
}

it('counts one finger on two single keys in a row, but no key twice and no other finger, and slides off a black key apart', () => {
  const pair = (a: number, b: number) => [together(press(a)), together(press(b))];
  expect(counted(pair(60, 64), [2], [2])).toEqual([1]);
  expect(counted(pair(60, 64), [2], [3])).toEqual([]);
  expect(counted(pair(60, 60), [2], [2])).toEqual([]);
  expect(counted(pair(61, 60), [3], [3])).toEqual([6]);
  expect(counted(pair(61, 60), [2], [2])).toEqual([1]);
  expect(counted(pair(61, 59), [3], [3])).toEqual([1]);
  expect(counted(pair(60, 61), [2], [2])).toEqual([1]);
});

it('counts a finger that goes from a key beside held ones to a single key, but none from a chord', () => {
  const held = together(press(48, 1), press(55, 1));
  const after = [held, together(press(59)), together(press(62))];
  expect(counted(after, [1, 3, 5], [5])).toEqual([1]);
  expect(counted(after, [1, 3, 5], [4])).toEqual([]);
  // The finger of a key let go is free, but has it to leave as well.
  expect(counted(after, [1, 3, 5], [3])).toEqual([1]);
  expect(counted([together(press(48), press(55)), together(press(59))], [1, 5], [5])).toEqual([]);
});

it('counts hops beside a held key apart, and none from chord to chord', () => {
  const held = together(press(48, 2), press(55));
  expect(counted([held, together(press(59))], [1, 3], [1, 3])).toEqual([4]);
  expect(counted([held, together(press(59))], [1, 3], [1, 4])).toEqual([]);
  expect(counted([held, together(press(55))], [1, 3], [1, 3])).toEqual([]);
  expect(counted([held, together(press(55), press(59))], [1, 5], [1, 3, 5])).toEqual([4]);
  expect(counted([together(press(48), press(55)), together(press(50), press(57))], [1, 5], [1, 5])).toEqual(
    [],
  );
});

it('counts a hop from a long key less, at the slow pace, but a slide whole', () => {
  const after = (seconds: number, from: number, to: number, finger: Finger) =>
    weighed([lasting(seconds, press(from)), lasting(seconds, press(to))], [finger], [finger]);
  expect(after(0.2, 60, 64, 2)).toEqual([[0, 1]]);
  expect(after(0.8, 60, 64, 2)).toEqual([[2, 1]]);
  expect(after(0.81, 60, 64, 2)).toEqual([[2, 0.7]]);
  expect(after(0.81, 61, 60, 3)).toEqual([[6, 1]]);
});
