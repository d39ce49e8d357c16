import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { printedLines } from '#core/cues/wording.js';
import type { Density, Language } from '#core/options/options.js';
import { type Box, type Curve, drawnPages, overlap, touches } from './drawn.js';

const FIXTURES = fileURLToPath(new URL('../../fixtures/', import.meta.url));
const DEMO = `${FIXTURES}demo/kelp-street-tunes.musicxml`;
const SONG = `${FIXTURES}page/low-tide.musicxml`;

/** Points of a curve at either end that count as its end: about a tenth of it. */
const END_POINTS = 5;
/** Pairs that may touch each other on all pages by their ends: verovio sets words without knowing our widths exactly. */
const TOUCHING_CUES = 1;
/** Share of cues and digits that a slur's middle may run through: verovio clears its ends, but not all of its length. */
const UNDER_SLURS = 0.02;

const ends = (curve: Curve): Curve[] => [curve.slice(0, END_POINTS), curve.slice(-END_POINTS)];

describe.each([
  ['demo', DEMO],
  ['song with slurs, lyrics, dynamics and hairpins', SONG],
])('the marked %s on the page, drawn by verovio', (_, file) => {
  it.each<[Density, Language]>([
    ['essential', 'en'],
    ['essential', 'de'],
    ['demanding', 'fr'],
  ])('sets no cue or digit on digits, dynamics, lyrics or slurs’ ends: %s, %s', (density, language) => {
    const { output, report } = annotate(readFileSync(file, 'utf8'), { density, language });
    const pages = drawnPages(output);
    const lines = report.lines.flatMap(({ slices }) =>
      slices.flatMap(({ cue }) => (cue === undefined ? [] : printedLines(cue).split('\n'))),
    );
    const texts = new Set(lines);
    const isCue = (box: Box) => box.kind === 'dir' && texts.has(box.text);
    const marks = pages.flatMap((page) => page.boxes.filter((box) => isCue(box) || box.kind === 'fing'));
    expect(marks.filter(isCue).length).toBe(lines.length);
    const pairs: string[] = [];
    const hits: string[] = [];
    let atEnds = 0;
    let under = 0;
    for (const { boxes, slurs } of pages) {
      boxes.forEach((one, at) => {
        if (!marks.includes(one)) return;
        for (const [nth, other] of boxes.entries()) {
          if (nth === at || !overlap(one, other) || (marks.includes(other) && nth < at)) continue;
          (isCue(one) && isCue(other) ? pairs : hits).push(`${one.text} on ${other.text}`);
        }
        if (slurs.some((slur) => ends(slur).some((end) => touches(one, end)))) atEnds++;
        if (slurs.some((slur) => touches(one, slur))) under++;
      });
    }
    console.log(
      `${marks.length} marks; cues on cues: ${pairs.join('; ') || 'none'}; other hits: ${hits.join('; ') || 'none'}; ` +
        `on slurs’ ends ${atEnds}, under slurs at all ${under}`,
    );
    expect(hits.length).toBeLessThanOrEqual(TOUCHING_CUES);
    expect(atEnds).toBe(0);
    expect(pairs.length).toBeLessThanOrEqual(TOUCHING_CUES);
    expect(under).toBeLessThanOrEqual(Math.ceil(UNDER_SLURS * marks.length));
  });

  it('has something to collide with', () => {
    const page = drawnPages(readFileSync(SONG, 'utf8'))[0]!;
    const count = (kind: string) => page.boxes.filter((box) => box.kind === kind).length;
    expect(page.slurs.length).toBeGreaterThan(20);
    expect(count('syl')).toBeGreaterThan(50);
    expect(count('dynam')).toBeGreaterThan(4);
    expect(count('hairpin')).toBeGreaterThan(2);
  });
});
