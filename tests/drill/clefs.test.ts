import fc from 'fast-check';
import { expect, it } from 'vitest';
import { drill } from '#core/drill/drill.js';
import { type ClefSign, PRICES, viewsOf } from '#core/drill/engraving/clefs.js';
import { barsOf } from '#core/drill/rhythm/bars.js';
import { parseMetre } from '#core/drill/rhythm/metre.js';
import { noteValue } from '#core/drill/rhythm/values.js';
import { rounds } from '../rounds.js';

const metre = parseMetre('4/4');
const VIEWS = [
  { clef: 'G', octaves: 0 },
  { clef: 'F', octaves: 0 },
  { clef: 'G', octaves: 1 },
  { clef: 'F', octaves: -1 },
] as const;
type View = (typeof VIEWS)[number];

/** The rules again, in other words: what one way to write some groups of two notes costs. */
function priceOf(groups: readonly (readonly number[])[], views: readonly View[], home: ClefSign): number {
  let price = views[0]!.clef === home ? 0 : PRICES.otherStart;
  views.forEach((view, nth) => {
    const before = views[nth - 1];
    if (before && before.clef !== view.clef) price += PRICES.changeClef;
    if (before && before.octaves !== view.octaves) price += PRICES.changeOctave;
    for (const sounding of groups[nth]!) {
      const written = sounding - 7 * view.octaves;
      // Lines of the staff, by place: E4 to F5, or G2 to A3.
      const lowest = view.clef === 'G' ? 30 : 18;
      const [under, over] = [lowest - written, written - (lowest + 8)];
      const lines = Math.floor(Math.max(under, over, 0) / 2);
      price += Math.max(0, lines - PRICES.easyLines) ** 2;
      if (view.octaves !== 0) price += PRICES.underOctave;
      if (view.clef !== home) price += PRICES.foreignClef;
    }
  });
  return price;
}

function* everyWay(count: number): Generator<View[]> {
  if (count === 0) yield [];
  else for (const rest of everyWay(count - 1)) for (const view of VIEWS) yield [...rest, view];
}

it('clefs and octave lines are the cheapest of every way to write the notes', () => {
  const group = fc.array(fc.integer({ min: 7, max: 56 }), { minLength: 2, maxLength: 2 });
  const home = fc.constantFrom<ClefSign>('G', 'F');
  fc.assert(
    fc.property(fc.array(group, { minLength: 1, maxLength: 4 }), home, (groups, own) => {
      const steps = groups.flat().map((diatonic) => ({ pitches: [{ diatonic, alter: 0 }] }));
      const bars = barsOf(steps, { metre, values: [noteValue('eighth')] });
      const changes = viewsOf(bars, metre, own);
      let view: View = VIEWS[0];
      const found = groups.map((_, nth) => {
        const change = changes.find(({ measure, at }) => measure === 0 && at === 48 * nth);
        view = change
          ? VIEWS.find(({ clef, octaves }) => clef === change.clef && octaves === change.octaves)!
          : view;
        return view;
      });
      const least = Math.min(...[...everyWay(groups.length)].map((ways) => priceOf(groups, ways, own)));
      expect(priceOf(groups, found, own)).toBeCloseTo(least, 9);
    }),
    rounds(60),
  );
});

it('keys of a sheet are fingered as each would be alone', () => {
  const fingers = (keys: readonly string[]) =>
    drill({ keys, kinds: ['major', 'harmonic-minor'], octaves: 2 }).report.lines.map(({ slices }) =>
      slices.map((slice) => slice.fingers[0]),
    );
  const together = fingers(['E', 'F', 'B']);
  const alone = ['E', 'F', 'B'].map((key) => fingers([key]));
  for (const hand of [0, 1]) expect(together[hand]).toEqual(alone.flatMap((own) => own[hand]));
});
