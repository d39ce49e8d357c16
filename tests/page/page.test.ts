import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { DENSITIES, type Density, LANGUAGE_CODES, type Language } from '#core/options/options.js';
import { LONG } from '../rounds.js';
import { FIXTURES } from '../scores.js';
import { drawnPages } from './drawn.js';
import { faultsOf, tellFaults } from './faults.js';

const SONG = 'page/low-tide.musicxml';
const SCORES = ['demo/kelp-street-tunes.musicxml', SONG, 'scores/schumann-op15-1.musicxml'];
const SPANS = ['small', 'medium', 'large'] as const;
type Span = (typeof SPANS)[number];
/**
 * Texts of a whole score that may touch another text, a tempo mark, words of the score or a slur: verovio looks once over what a text could
 * meet, and not again when it has moved the text; beside slurs it leaves the feet of letters little room. Worst of the matrix.
 */
const MOST_TOUCHING: Readonly<Record<Density, number>> = { every: 5, essential: 2, demanding: 0 };

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
      const { onOurs, onSigns, struck, ...others } = faults;
      expect(others).toEqual({ onDigits: [], digits: [], atEnds: [] });
      const touching = new Set([...onOurs, ...onSigns, ...struck].map((fault) => fault.split(' on ')[0]));
      expect([...touching].slice(MOST_TOUCHING[density])).toEqual([]);
      expect(onSigns.filter((fault) => !/ on (?:tempo|dir) /.test(fault))).toEqual([]);
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
