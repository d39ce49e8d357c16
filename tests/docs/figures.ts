import { readFileSync, writeFileSync } from 'node:fs';
import type { Density } from '#core/options/options.js';

const FILE = new URL('../../packages/core/docs/figures.json', import.meta.url);

export interface FragmentFigures {
  readonly fragments: number;
  readonly percent: number;
  readonly saved: number;
}

/** Measured figures that the guides quote, as the benches and the fit wrote them last. */
export interface Figures {
  /** Time of `annotate` to that of the parser, and its time a note to that of the smallest score, over sizes from 3,000 notes. */
  readonly annotate: Readonly<Record<'ratioLeast' | 'ratioMost' | 'growthLeast' | 'growthMost', number>>;
  /** Texts a beat and a measure, and the share of cues in or out that stand before the note they serve, by density; the share of crossings told of when essential. */
  readonly cues: Readonly<
    Record<Density, { readonly beat: number; readonly measure: number; readonly early: number }>
  > & {
    readonly scores: number;
    readonly crossings: number;
  };
  /** Agreement with editors' digits by how it was judged. */
  readonly fit: Readonly<Record<string, { readonly macro: number; readonly micro: number }>>;
  /** Fragments of scales by kind and hand: how many, percent with an easier fingering than the scale's, mm that it saves. */
  readonly fragments: Readonly<
    Record<string, FragmentFigures & { readonly byLength: readonly FragmentFigures[] }>
  >;
  /** The fragments that the guide explains. */
  readonly explained: readonly string[];
  /** Percent of the fragments' easiest fingerings with a long finger over another, and with a finger that slides. */
  readonly unusual: { readonly crossing: number; readonly sliding: number };
  /** What `review` finds: findings per 100 measures of a hand by level and by cause; extra movement, mm a note, by percent of the passages. */
  readonly review: Readonly<Record<'scores' | 'digits' | 'passages' | 'measures', number>> & {
    readonly levels: Readonly<Record<string, number>>;
    readonly causes: Readonly<Record<string, number>>;
    readonly extra: Readonly<Record<string, number>>;
  };
  /** A review of so many digits: its CPU time to that of `annotate`. */
  readonly reviewTime: { readonly digits: number; readonly ratio: number };
  /** A book of 24 keys in 4 octaves: its notes, and the time that it takes to that of marking it alone. */
  readonly drill: { readonly notes: number; readonly ratio: number };
}

export const readFigures = (): Figures => JSON.parse(readFileSync(FILE, 'utf8')) as Figures;

/** Writes the figures anew where HANDLINE_RECORD=1 is in the environment; otherwise a bench only prints them. */
export function record(change: (figures: Figures) => Figures): void {
  if (process.env.HANDLINE_RECORD !== '1') return;
  writeFileSync(FILE, `${JSON.stringify(change(readFigures()), null, 2)}\n`);
}
