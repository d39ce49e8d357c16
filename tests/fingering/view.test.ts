import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { joinedView } from '#core/fingering/repeats/join-costs.js';
import { alternations } from '#core/fingering/view/alternations.js';
import { AUGMENTED_SECOND, isStep, strideOf } from '#core/fingering/view/interval.js';
import { surroundingsOf } from '#core/fingering/view/surroundings.js';
import { paceOf, roughPace, type SliceView, viewLine } from '#core/fingering/view/view.js';
import type { Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';
import { type Happening, happenings, lineOf } from './lines.js';

const model = handModel();

const strike = (keys: readonly number[], seconds = 0.15): Happening => ({
  presses: keys.map((key) => ({ key, holds: 0, pedalled: false })),
  seconds,
  rest: 0,
  phraseStart: false,
  grace: false,
  onBeat: true,
});

describe('the pace of a slice', () => {
  it.each([
    [0, 0, 0],
    [0.1, 0, 0],
    [0.101, 1, 0],
    [1 / 7, 1, 0],
    [0.144, 2, 0],
    [0.2, 2, 0],
    [0.201, 3, 1],
    [0.25, 3, 1],
    [0.251, 4, 1],
    [0.45, 4, 1],
    [0.451, 5, 2],
    [0.8, 5, 2],
    [0.801, 6, 2],
    [60, 6, 2],
  ])('%s seconds: class %s, roughly %s', (seconds, pace, rough) => {
    expect(paceOf(seconds)).toBe(pace);
    // Times are sums of fractions.
    expect(paceOf(seconds + 1e-12)).toBe(pace);
    expect(roughPace(paceOf(seconds))).toBe(rough);
  });
});

describe('the stride of an interval', () => {
  it.each([
    [0, 3],
    [1, 4],
    [2, 4],
    [3, 5],
    [4, 5],
    [5, 6],
    [12, 6],
    [AUGMENTED_SECOND, 4],
  ])('of %s semitones is %s up and as much less down', (semitones, stride) => {
    expect(strideOf(semitones)).toBe(stride);
    expect(strideOf(-semitones)).toBe(6 - stride);
    expect(isStep(strideOf(semitones))).toBe(stride === 4);
    expect(isStep(strideOf(-semitones))).toBe(stride === 4);
  });

  it('has middle intervals as wide as asked', () => {
    expect([5, 7, 8].map((semitones) => strideOf(semitones, 7))).toEqual([5, 5, 6]);
  });
});

describe('a trill', () => {
  const lengths = (...events: readonly Happening[]) => alternations(lineOf('right', events).slices).join('');
  const trill = (count: number, low = 64, high = 65, seconds = 0.15) =>
    Array.from({ length: count }, (_, nth) => strike([nth % 2 === 0 ? low : high], seconds));

  it.each([
    [2, '00'],
    [4, '0000'],
    [5, '11111'],
    [7, '1111111'],
    [8, '22222222'],
    [9, '222222222'],
  ])('of %s notes: %s', (count, expected) => {
    expect(lengths(...trill(count))).toBe(expected);
  });

  it('is fast, and no wider than a third', () => {
    expect(lengths(...trill(8, 64, 65, 0.2))).toBe('22222222');
    expect(lengths(...trill(8, 64, 65, 0.21))).toBe('00000000');
    expect(lengths(...trill(8, 64, 68))).toBe('22222222');
    expect(lengths(...trill(8, 64, 69))).toBe('00000000');
    expect(lengths(...trill(8, 64, 64))).toBe('00000000');
  });

  it('is of single keys, and stands among others', () => {
    expect(
      lengths(
        ...trill(8, 64, 65).map((event) => ({
          ...event,
          presses: [...event.presses, ...strike([70]).presses],
        })),
      ),
    ).toBe('00000000');
    // D E F E F E F E C: D leads to E, which begins the trill.
    expect(lengths(strike([62]), ...trill(7), strike([60]))).toBe('011111110');
    expect(lengths(...trill(5), ...trill(5, 72, 74))).toBe('1111111111');
    // The second trill begins with the last note of the first.
    expect(lengths(...trill(5, 64, 65), ...trill(5, 66, 64))).toBe('1111111111');
    expect(lengths(...trill(4), strike([64], 0.5), ...trill(3))).toBe('00000000');
    expect(alternations([])).toEqual([]);
  });
});

describe('the right hand’s view', () => {
  it('mirrors the left hand’s keys about D and keeps where they come from', () => {
    const event = strike([60, 64, 67]);
    const line = lineOf('left', [event]);
    const [view] = viewLine(line, model, false);
    expect(view!.keys).toEqual([60, 64, 67]);
    expect(line.slices[0]!.struck.map(({ key }) => key)).toEqual([57, 60, 64]);
    expect(view!.source).toEqual([2, 1, 0]);
    expect([view!.low, view!.high]).toEqual([60, 67]);
  });

  it('takes the file’s digits where it should', () => {
    const event = { ...strike([60]), presses: [{ key: 60, holds: 0, pedalled: false, fixed: 4 as const }] };
    const fingers = (keep: boolean) => {
      const [view] = viewLine(lineOf('right', [event]), model, keep);
      return [view!.given, view!.candidates.map((own) => own.fingers.join()).join(' ')];
    };
    expect(fingers(true)).toEqual([true, '4']);
    expect(fingers(false)).toEqual([false, '1 2 3 4 5']);
  });

  it('begins afresh at the start, at a phrase and after a rest', () => {
    const events = [
      strike([60]),
      strike([62]),
      { ...strike([64], 0.5), phraseStart: true },
      { ...strike([65], 0.5), rest: 0.3 },
      { ...strike([67], 0.5), rest: 0.29 },
      // A quarter of a second is what a new phrase takes.
      { ...strike([69], 0.25), phraseStart: true },
      { ...strike([71], 0.24), phraseStart: true },
    ];
    const views = viewLine(lineOf('right', events), model, false, new Set([3]));
    expect(views.map(({ fresh }) => fresh)).toEqual([true, false, true, true, false, true, false]);
    expect(views.map(({ cut }) => cut)).toEqual([false, false, false, true, false, false, false]);
  });

  it('begins afresh across a repeat where there is the time to go', () => {
    const events = [strike([60]), { ...strike([62], 0.5), phraseStart: true }, strike([64], 0.5)];
    const [, phrase, within] = viewLine(lineOf('right', events), model, false);
    const across = (view: SliceView | undefined, seconds: number, free: number) =>
      joinedView(view!, { from: 2, to: 1, seconds, free }).fresh;
    expect([across(phrase, 0.25, 0), across(phrase, 0.24, 0), across(phrase, 0.2, 0.15)]).toEqual([
      true,
      false,
      true,
    ]);
    expect([across(within, 0.5, 0), across(within, 0.5, 0.15)]).toEqual([false, true]);
  });

  it('knows the place on the staff of single keys alone', () => {
    const { line } = melody('right', [60, 62], '12');
    const slices = line.slices.map((slice) => ({
      ...slice,
      struck: slice.struck.map((key) => ({ ...key, diatonic: 28 })),
    }));
    const chord = { ...slices[1]!, struck: [...slices[1]!.struck, { ...slices[1]!.struck[0]!, key: 65 }] };
    const views = viewLine({ ...line, slices: [slices[0]!, chord] }, model, false);
    expect(views.map(({ diatonic }) => diatonic)).toEqual([28, undefined]);
  });
});

/** What lies within an octave of a slice on one side, slice by slice outwards. */
function room(views: readonly SliceView[], at: number, step: 1 | -1): readonly [number, number] {
  let inside = [views[at]!];
  for (let nth = 1; nth <= 6; nth++) {
    const next = views[at + nth * step];
    if (next === undefined || next.keys.length === 0) break;
    // A rest of more than half a second lies before the later of two slices.
    if ((step > 0 ? next : views[at + (nth - 1) * step]!).free > 0.5) break;
    const wider = [...inside, next];
    if (Math.max(...wider.map(({ high }) => high)) - Math.min(...wider.map(({ low }) => low)) > 12) break;
    inside = wider;
  }
  const below = views[at]!.low - Math.min(...inside.map(({ low }) => low));
  const above = Math.max(...inside.map(({ high }) => high)) - views[at]!.high;
  return [Math.min(12, below), Math.min(12, above)];
}

it('the surroundings of every slice, against looking at them from each', () => {
  const lines = fc.oneof(
    happenings({ keys: 1, holds: 0, ambit: 5 }, 0, 20),
    happenings({ keys: 2, holds: 1, ambit: 14 }, 0, 12),
    happenings({ keys: 3, holds: 0, ambit: 24 }, 0, 12),
  );
  fc.assert(
    fc.property(fc.constantFrom<Hand>('right', 'left'), lines, (hand, events) => {
      const views = viewLine(lineOf(hand, events), model, false);
      surroundingsOf(views).forEach((own, at) => {
        const top = (nth: number) => views[nth]!.high;
        const way = (nth: number) =>
          nth < 1 || nth >= views.length ? 0 : Math.sign(top(nth) - top(nth - 1));
        let [led, leads] = [0, 0];
        while (way(at) !== 0 && way(at - Math.abs(led)) === way(at)) led += way(at);
        while (way(at + 1) !== 0 && way(at + 1 + Math.abs(leads)) === way(at + 1)) leads += way(at + 1);
        const upTo = (steps: number) => Math.sign(steps) * Math.min(6, Math.abs(steps));
        const [behind, ahead] = [room(views, at, -1), room(views, at, 1)];
        const colours = [-2, -1, 0, 1, 2].map((nth) => (views[at + nth]?.black[0] ? 1 : 0));
        const stride = (other: SliceView | undefined) => strideOf(other ? other.high - top(at) : 0);
        expect(own).toMatchObject({
          behind,
          ahead,
          around: [Math.max(behind[0], ahead[0]), Math.max(behind[1], ahead[1])],
          ledBy: upTo(led),
          leadsTo: upTo(leads),
          colours: colours.reduce<number>((bits, bit, nth) => bits + bit * 2 ** nth, 0),
          strideIn: stride(views[at - 1]),
          strideOut: stride(views[at + 1]),
        });
      });
    }),
    { numRuns: 300 },
  );
});

it('a rest of half a second parts nothing, a longer one ends a run and its surroundings', () => {
  const rests = (...seconds: readonly number[]) =>
    [60, 62, 64, 65].map((key, at) => ({
      ...strike([key], 2 * (seconds[at] ?? 0.15)),
      rest: seconds[at] ? 0.5 : 0,
    }));
  const around = (events: readonly Happening[]) =>
    surroundingsOf(viewLine(lineOf('right', events), model, false)).map(({ ahead, behind, since, until }) =>
      [behind[0], ahead[1], since, until].join(' '),
    );
  const whole = ['0 5 0 5', '2 3 2 3', '4 1 4 1', '5 0 5 0'];
  expect(around(rests())).toEqual(whole);
  expect(around(rests(0, 0, 0.5))).toEqual(whole);
  expect(around(rests(0, 0, 0.51))).toEqual(['0 2 0 2', '2 0 2 0', '0 1 0 1', '1 0 1 0']);
});
