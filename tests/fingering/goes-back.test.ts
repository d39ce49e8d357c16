import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { joinedView } from '#core/fingering/repeats/join-costs.js';
import { viewLine } from '#core/fingering/view/view.js';
import { type Happening, lineOf } from './lines.js';

const model = handModel();

const strike = (keys: readonly number[]): Happening => ({
  presses: keys.map((key) => ({ key, holds: 0, pedalled: false })),
  seconds: 0.15,
  rest: 0,
  phraseStart: false,
  grace: false,
  onBeat: true,
});

describe('a note behind which the line goes back', () => {
  const backs = (happenings: readonly Happening[], cuts: ReadonlySet<number> = new Set()): boolean[] =>
    viewLine(lineOf('right', happenings), model, false, cuts).map(({ goesBack }) => goesBack);
  const line = [64, 71, 67, 71].map((key) => strike([key]));

  it('is the one between two strokes of a key', () => {
    expect(backs(line)).toEqual([false, false, true, false]);
    expect(backs([64, 71, 64, 71].map((key) => strike([key])))).toEqual([false, true, true, false]);
  });

  it('is none before a rest, a chord, or what is never played behind it', () => {
    expect(backs([...line.slice(0, 3), { ...strike([71]), rest: 0.4, seconds: 0.5 }])).not.toContain(true);
    expect(backs([...line.slice(0, 3), strike([67, 71])])).not.toContain(true);
    expect(backs(line, new Set([3]))).not.toContain(true);
  });

  it('is none where a repeat begins anew', () => {
    const view = viewLine(lineOf('right', line), model, false)[2]!;
    expect(joinedView(view, { from: 3, to: 2, seconds: 0.2, free: 0 }).goesBack).toBe(false);
  });
});
