import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { barFigures } from '#core/fingering/consistency/figures/bar-figures.js';
import { figuresOf } from '#core/fingering/consistency/figures/figures.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import { fingerLine } from '#core/index.js';
import { buildLine, even } from '../practice/passages/making/build-line.js';
import { rounds, SEED } from '../rounds.js';
import { type Happening, lineOf, single } from './lines.js';
import { barsAlike } from './restated/bars.js';

const note = fc.record({
  key: fc.constantFrom(60, 64, 67),
  holds: fc.constantFrom(0, 0, 1),
  seconds: fc.constantFrom(0.2, 0.3, 0.6),
});
const bar = fc.array(note, { minLength: 1, maxLength: 4 });

/** Two or three bars, and the order in which they are played. */
const bars = fc.tuple(
  fc.array(bar, { minLength: 2, maxLength: 3 }),
  fc.array(fc.nat(2), { minLength: 2, maxLength: 6 }),
);

function viewsOf([kinds, order]: typeof bars extends fc.Arbitrary<infer T>
  ? T
  : never): readonly SliceView[] {
  const played = order.map((kind) => kinds[kind % kinds.length]!);
  const events = played.flat().map(
    ({ key, holds, seconds }): Happening => ({
      ...single(key),
      presses: [{ key, holds, pedalled: false }],
      seconds,
    }),
  );
  const measures = played.flatMap((own, measure) => own.map(() => measure));
  const line = lineOf('right', events);
  const slices = line.slices.map((slice, at) => ({ ...slice, measure: measures[at]! }));
  return viewLine({ ...line, slices }, handModel(), true);
}

it('every slice of a bar is joined with those in the same place of all bars that read the same', () => {
  let joined = 0;
  fc.assert(
    fc.property(bars, (drawn) => {
      const views = viewsOf(drawn);
      const expected = barsAlike(views);
      joined += expected.length;
      const found = barFigures(views).toSorted((one, other) => one.slices[0]! - other.slices[0]!);
      expect(found).toEqual(expected);
      expect(figuresOf(views)).toEqual(expect.arrayContaining([...expected]));
    }),
    { ...rounds(300), seed: SEED },
  );
  console.log(`bars: ${joined} places joined`);
  expect(joined).toBeGreaterThan(100);
});

it('a bar that comes back behind another one is fingered as before', () => {
  // D F sharp A F sharp, D G B G, C sharp E A E and the first bar again: without it 1 2 4 2 at first, 1 3 5 3 at last.
  const keys = [62, 66, 69, 66, 62, 67, 71, 67, 61, 64, 69, 64, 62, 66, 69, 66];
  const struck = keys.map((key) => [key]);
  const line = buildLine('right', even(struck, 0.5), { tempo: 104, bar: 2 });
  const { slices } = fingerLine(line, handModel()).fingering;
  const digits = slices.map((slice) => slice.struck.join());
  expect(line.slices[12]!.measure).toBe(line.slices[0]!.measure + 3);
  expect(digits.slice(12)).toEqual(digits.slice(0, 4));
});
