import { handModel } from '#core/anatomy/hand.js';
import { type Comparison, compare, ScaleFingering } from '#core/drill/awkward/compare.js';
import { type Fragment, fragmentPlaces, fragmentsOf } from '#core/drill/patterns/fragments.js';
import { reach } from '#core/drill/patterns/ladder-lines.js';
import { middleOctave } from '#core/drill/patterns/range.js';
import { allTonics, scaleLadder } from '#core/drill/theory/keys.js';
import { tonicName } from '#core/drill/theory/tonic.js';
import type { Hand } from '#core/score/model.js';
import { type Figures, record } from './figures.js';

// HANDLINE_RECORD=1 npx tsx tests/docs/fragments.ts: every fragment of 4 to 9 notes of the twelve major and the twelve
// harmonic minor scales, either hand, as packages/core/docs/drill.md tells of them. Takes about two minutes.

const KINDS = ['major', 'harmonic-minor'] as const;
const HANDS: readonly Hand[] = ['right', 'left'];
const LENGTHS = { from: 4, to: 9 };
/** Eighth notes at 80 quarter notes a minute, as a sheet has them by default. */
const SECONDS = 0.375;
/** mm that a player feels, as in `fragment-sections.ts`. */
const FELT = 2;
const LISTED = 60;

interface Row {
  readonly kind: (typeof KINDS)[number];
  readonly hand: Hand;
  readonly key: string;
  readonly comparison: Comparison;
}

/** Those that the guide explains. */
const TOLD: readonly (readonly [key: string, kind: Row['kind'], hand: Hand, fragment: Fragment])[] = [
  ['C', 'major', 'right', { start: 3, length: 6, turn: 5, first: 'down' }],
  ['D', 'harmonic-minor', 'right', { start: 0, length: 8, turn: 5, first: 'up' }],
  ['G', 'major', 'right', { start: 4, length: 5, turn: 3, first: 'up' }],
  ['C', 'major', 'right', { start: 5, length: 5, turn: 3, first: 'down' }],
  ['B', 'major', 'right', { start: 0, length: 8, turn: 8, first: 'up' }],
];

const model = handModel();

function rowsOf(kind: Row['kind'], hand: Hand): readonly Row[] {
  return allTonics(kind).flatMap((tonic) => {
    const ladder = scaleLadder(tonic, kind);
    const player = { hand, model, seconds: SECONDS };
    const whole = new ScaleFingering(ladder, player);
    return fragmentsOf(ladder.size, LENGTHS).map((fragment): Row => {
      const { least, most } = reach(fragmentPlaces(fragment));
      const octave = middleOctave(ladder, least - ladder.size, most) - (hand === 'right' ? 0 : 1);
      return {
        kind,
        hand,
        key: tonicName(tonic),
        comparison: compare(ladder, fragment, octave, player, whole),
      };
    });
  });
}

const saved = ({ comparison }: Row): number => comparison.scaleMovement - comparison.easiestMovement;

/** Percent of the fragments whose easiest fingering is another one and felt to be so, and the mm that those save on average. */
function summary(rows: readonly Row[]) {
  const felt = rows.filter((row) => row.comparison.differs && saved(row) >= FELT);
  const mean = felt.reduce((sum, row) => sum + saved(row), 0) / Math.max(1, felt.length);
  return {
    fragments: rows.length,
    percent: Math.round((100 * felt.length) / rows.length),
    saved: Math.round(mean),
  };
}

function nameOf({ start, length, turn, first }: Fragment): string {
  return `degree ${start + 1}, ${length} notes, ${first}${turn < length ? `, turning at note ${turn}` : ''}`;
}

function told({ key, kind, hand, comparison }: Row): string {
  const { fragment, easiest, scale, easiestMovement, scaleMovement, dearer } = comparison;
  const terms = dearer.map(({ term, mm }) => `${term} ${mm.toFixed(1)}`).join(', ');
  return (
    `${key} ${kind}, ${hand} hand, ${nameOf(fragment)}: ${easiest.join('')} ${easiestMovement.toFixed(1)}, ` +
    `scale ${scale.join('')} ${scaleMovement.toFixed(1)}; ${terms}`
  );
}

function percent(rows: readonly Row[]): number {
  return Math.round((1000 * rows.length) / all.length) / 10;
}

/** The fingers of each note and the next, and whether the line goes away from the thumb's side there. */
function neighbours(
  { fragment, easiest }: Comparison,
  hand: Hand,
): readonly (readonly [number, number, boolean])[] {
  const places = fragmentPlaces(fragment);
  return easiest
    .slice(1)
    .map((finger, at) => [easiest[at]!, finger, places[at + 1]!.at > places[at]!.at === (hand === 'right')]);
}

function isLongCrossing([a, b, away]: readonly [number, number, boolean]): boolean {
  return a !== 1 && b !== 1 && a !== b && b > a !== away;
}

const tables: Record<string, Figures['fragments'][string]> = {};
const all: Row[] = [];
for (const kind of KINDS) {
  for (const hand of HANDS) {
    const rows = rowsOf(kind, hand);
    all.push(...rows);
    const lengths = Array.from({ length: LENGTHS.to - LENGTHS.from + 1 }, (_, nth) => LENGTHS.from + nth);
    const byLength = lengths.map((length) =>
      summary(rows.filter(({ comparison }) => comparison.fragment.length === length)),
    );
    tables[`${kind}, ${hand} hand`] = { ...summary(rows), byLength };
    const negative = rows.filter((row) => saved(row) < -0.01).length;
    console.log(
      kind,
      hand,
      JSON.stringify(tables[`${kind}, ${hand} hand`]),
      `easiest dearer than the scale's: ${negative}`,
    );
  }
}
for (const row of [...all].sort((a, b) => saved(b) - saved(a)).slice(0, LISTED)) console.log(told(row));

const explained = TOLD.map(([key, kind, hand, fragment]) => {
  const same = (own: Fragment) => JSON.stringify(own) === JSON.stringify(fragment);
  const row = all.find(
    (own) => own.key === key && own.kind === kind && own.hand === hand && same(own.comparison.fragment),
  )!;
  const { easiest, scale, easiestMovement, scaleMovement } = row.comparison;
  console.log(told(row));
  return `${easiest.join(' ')} (${easiestMovement.toFixed(1)} mm), in the scale ${scale.join(' ')} (${scaleMovement.toFixed(1)} mm)`;
});

/** Percent of the fragments whose easiest fingering has a long finger cross another one, or one finger take two keys. */
const unusual = {
  crossing: percent(all.filter(({ hand, comparison }) => neighbours(comparison, hand).some(isLongCrossing))),
  sliding: percent(
    all.filter(({ hand, comparison }) => neighbours(comparison, hand).some(([a, b]) => a === b)),
  ),
};
console.log(unusual);
record((figures) => ({ ...figures, fragments: tables, explained, unusual }));
