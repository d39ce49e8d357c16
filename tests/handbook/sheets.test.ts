import { expect, it } from 'vitest';
import { drill } from '#core/drill/drill.js';
import type { Hand } from '#core/score/model.js';
import { LONG } from '../rounds.js';
import { type Kind, passage, TABLES } from './tables.js';

const KINDS: readonly (readonly [sheet: 'major' | 'harmonic-minor', handbook: Kind])[] = [
  ['major', 'major scale'],
  ['harmonic-minor', 'harmonic minor scale'],
];
const OCTAVES = LONG ? ([1, 2, 3, 4] as const) : ([1, 4] as const);
/** Share of equal digits, by number of octaves, as measured, less two points. */
const LEAST: Readonly<Record<number, number>> = { 1: 0.954, 2: 0.927, 3: 0.896, 4: 0.897 };

const typed = (tonic: string) => tonic.replace(' flat', 'b').replace(' sharp', '#');

/** The handbook's digits are a check: the sheet was fingered without them. */
it.each(OCTAVES)('sheets of %s octaves are as near to the handbook as measured', (octaves) => {
  let [equal, all] = [0, 0];
  for (const [kind, table] of KINDS) {
    const tonics = Object.keys(TABLES[table]);
    const { report } = drill({ keys: tonics.map(typed), kinds: [kind], octaves });
    for (const hand of ['right', 'left'] as const satisfies readonly Hand[]) {
      const fingers = report.lines
        .find((line) => line.hand === hand)!
        .slices.map((slice) => slice.fingers[0]);
      const size = 14 * octaves + 1;
      expect(fingers.length).toBe(size * tonics.length);
      const told = tonics.map((tonic, nth) => {
        const ours = fingers.slice(nth * size, (nth + 1) * size);
        const { forms } = passage(table, tonic, hand, octaves);
        const most = Math.max(
          ...forms.map((form) => ours.filter((finger, at) => `${finger}` === form[at]).length),
        );
        equal += most;
        all += size;
        return `${tonic} ${most}/${size}`;
      });
      console.log(
        `${octaves} octaves, ${table}, ${hand} hand, digits equal to the handbook's: ${told.join(', ')}`,
      );
    }
  }
  console.log(`${octaves} octaves: ${((100 * equal) / all).toFixed(1)} % of ${all} digits equal`);
  expect(equal / all).toBeGreaterThanOrEqual(LEAST[octaves]!);
});
