import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { DENSITIES, type Density, LANGUAGE_CODES, type Language } from '#core/options/options.js';
import { LONG } from '../rounds.js';
import { FIXTURES } from '../scores.js';
import { drawnPages } from './drawn.js';
import { type Faults, faultsOf, tellFaults } from './faults.js';

const SONG = 'page/low-tide.musicxml';
const SLURS = 'page/long-swell.musicxml';
const SCORES = ['demo/kelp-street-tunes.musicxml', SONG, 'scores/schumann-op15-1.musicxml'];
const SPANS = ['small', 'medium', 'large'] as const;
type Span = (typeof SPANS)[number];
/**
 * In the long rounds all; else fifteen, so that every two values of language, density and span meet, and every score
 * meets every value.
 */
const COMBINATIONS: readonly (readonly [string, Language, Density, Span])[] = LANGUAGE_CODES.flatMap(
  (language, nth) =>
    DENSITIES.flatMap((density, at) =>
      SPANS.flatMap((span, size) =>
        SCORES.flatMap((score, which) => {
          const isChosen = size === (nth + at) % SPANS.length && which === (nth + 2 * at) % SCORES.length;
          return LONG || isChosen ? [[score, language, density, span] as const] : [];
        }),
      ),
    ),
);

const NONE = { onOurs: [], near: [], onDigits: [], onSigns: [], struck: [], digits: [], atEnds: [] };

/** Pairs of texts at `every` that verovio may leave near each other where it has moved one away from a third (docs/cues.md). */
const NEAR = 2;

function allowing(faults: Faults, density: Density): Faults {
  return density === 'every' && faults.near.length <= NEAR ? { ...faults, near: [] } : faults;
}

const read = (name: string): string => readFileSync(`${FIXTURES}${name}`, 'utf8');

describe('the marked page, drawn by verovio', () => {
  it.each(COMBINATIONS)(
    'sets no cue or digit on anything, nor under a slur: %s, %s, %s, %s hand',
    (score, language, density, span) => {
      const { output, report } = annotate(read(score), { density, language, span });
      const cues = report.lines.flatMap(({ slices }) => slices.flatMap(({ cue }) => cue ?? []));
      const pages = drawnPages(output);
      const faults = faultsOf(pages);
      const ours = pages.flatMap(({ boxes }) => boxes.filter((box) => box.ours));
      expect(ours.length).toBeGreaterThanOrEqual(cues.length);
      console.log(`${ours.length} texts of ours: ${tellFaults(faults)}`);
      expect(allowing(faults, density)).toEqual(NONE);
    },
  );

  // Long slurs over both hands, others within them, on either side of the left hand.
  it.each(COMBINATIONS.filter(([score]) => score === SONG))(
    'has no cue struck by a long slur: instead of %s, %s, %s, %s hand',
    (_, language, density, span) => {
      const pages = drawnPages(annotate(read(SLURS), { density, language, span }).output);
      expect(pages.flatMap(({ slurs }) => slurs).length).toBeGreaterThan(12);
      expect(allowing(faultsOf(pages), density)).toEqual(NONE);
    },
  );

  it('has something to collide with', () => {
    const { boxes, slurs } = drawnPages(read(SONG))[0]!;
    const count = (kind: string) => boxes.filter((box) => box.kind === kind).length;
    expect(slurs.length).toBeGreaterThan(20);
    expect(count('syl')).toBeGreaterThan(50);
    expect(count('dynam')).toBeGreaterThan(4);
    expect(count('hairpin')).toBeGreaterThan(2);
  });
});
