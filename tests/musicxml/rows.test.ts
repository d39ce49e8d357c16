import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CueMark } from '#core/musicxml/marks/edit.js';
import { LINE, type Placed, rowsOf } from '#core/musicxml/marks/places/rows.js';
import { widthOf } from '#core/musicxml/marks/places/widths.js';
import { rounds } from '../rounds.js';
import { attributes, note, onePart } from './read-source.js';
import { collide, isSafe, liftedHeights, mostLevel, pagesOf, placedHeights } from './restated-rows.js';
import { mark } from './write-source.js';

/** Texts of one line by where they begin and end and how far out lies what is beside them. */
const placed = (...texts: readonly (readonly [number, number, number?, boolean?])[]): Placed[] =>
  texts.map(([left, right, extent = 0, isFree = true], cue) => ({
    cue,
    left,
    right,
    extent,
    lines: 1,
    rise: 0,
    order: cue,
    isFree,
  }));

const rows = (texts: readonly Placed[]): number[][] => rowsOf(texts).map((row) => row.map(({ cue }) => cue));

describe('rows of texts', () => {
  it('hold neighbours that are clear of each other', () => {
    expect(rows(placed([0, 9], [9, 17], [18, 26]))).toEqual([[0, 1, 2]]);
    expect(rows(placed([0, 9.1], [9, 17], [18, 26]))).toEqual([[1, 2]]);
  });

  it('hold one that reaches over the next only where it surely stands highest; that begins a row only where it cannot slip under it', () => {
    expect(rows(placed([0, 8], [9, 17], [18, 26], [20, 28], [30, 38], [40, 48]))).toEqual([
      [0, 1],
      [3, 4, 5],
    ]);
    expect(rows(placed([0, 8], [9, 17], [18, 26, 1], [20, 28], [30, 38], [40, 48]))).toEqual([
      [0, 1],
      [3, 4, 5],
    ]);
    expect(rows(placed([0, 8], [9, 17], [18, 26, 2], [20, 28, 1], [30, 38], [40, 48]))).toEqual([
      [0, 1, 2],
      [3, 4, 5],
    ]);
    expect(rows(placed([0, 8], [9, 17], [18, 26, 4], [20, 28, 2], [30, 38], [40, 48]))).toEqual([
      [0, 1, 2],
      [4, 5],
    ]);
  });

  it('hold no text that something else may be in the way of', () => {
    expect(rows(placed([0, 8], [10, 18], [20, 28, 0, false], [30, 38], [40, 48]))).toEqual([
      [0, 1],
      [3, 4],
    ]);
  });

  const text = fc.record({
    apart: fc.integer({ min: 1, max: 16 }),
    width: fc.integer({ min: 2, max: 10 }),
    extent: fc.nat(8),
    lines: fc.constantFrom(1, 1, 2, 3),
    isFree: fc.integer({ min: 0, max: 9 }).map((nth) => nth > 0),
    isEarly: fc.integer({ min: 0, max: 4 }).map((nth) => nth === 0),
  });
  /** @param isOrdered whether they stand in the file as on the page */
  const textsOf = (most: number, isOrdered: boolean): fc.Arbitrary<Placed[]> =>
    fc.tuple(fc.array(text, { minLength: 2, maxLength: most }), fc.boolean()).map(([drawn, isAbove]) => {
      let left = 0;
      return drawn.map(({ apart, width, extent, lines, isFree, isEarly }, cue): Placed => {
        left += apart;
        const rise = isAbove ? LINE * (lines - 1) : 0;
        const order = isEarly && !isOrdered ? cue - EARLIER : cue;
        return { cue, left, right: left + width, extent, lines, rise, order, isFree };
      });
    });

  it('never lift one text into another, whatever lies beside them', () => {
    fc.assert(
      fc.property(textsOf(12, false), (texts) => {
        const own = placedHeights(
          texts,
          texts.map(({ extent }) => extent),
        );
        expect(collide(texts, liftedHeights(texts, own, rows(texts)))).toBe(false);
      }),
      rounds(2000),
    );
  });

  // However a program breaks and stretches systems, and with stems and digits a step further out or in than estimated.
  it('are safe on every page, and of all that are so they set nearly as many neighbours level as can be', () => {
    let [ours, most] = [0, 0];
    fc.assert(
      fc.property(textsOf(6, true), (texts) => {
        const pages = pagesOf(texts, STEPS_OFF);
        const own = rows(texts);
        expect(isSafe(texts, own, pages)).toBe(true);
        ours += own.reduce((sum, row) => sum + row.filter((at) => row.includes(at + 1)).length, 0);
        most += mostLevel(texts, pages);
      }),
      rounds(300),
    );
    console.log(`${ours} of ${most} neighbours level that can be`);
    expect(ours / most).toBeGreaterThanOrEqual(LEAST_SHARE);
  });
});

/** Places in the file by which a text of another voice stands before its neighbours. */
const EARLIER = 1.5;

/** Steps by which estimated heights may be off (docs/cues.md), and the share of the most that they reach at least. */
const STEPS_OFF = 1;
const LEAST_SHARE = 0.9;

describe('widths of texts', () => {
  it('are those of the longest line, without the blanks behind it', () => {
    expect(widthOf('in\u2002\u00a0')).toBeCloseTo(widthOf('in'));
    expect(widthOf('in\nover the')).toBe(widthOf('over the'));
    expect(widthOf('mmm')).toBeGreaterThan(widthOf('nnn'));
    expect(widthOf('nnn')).toBeGreaterThan(widthOf('iii'));
  });
});

describe('heights of cues', () => {
  /** `default-y` of a cue at each of the notes of a measure. */
  const heights = (upper: readonly string[], cues: Partial<CueMark> = {}): (string | undefined)[] => {
    const text = onePart([attributes() + upper.join('')]);
    const own = upper.map(
      (_, at): CueMark => ({ part: 0, note: at, text: 'in', placement: 'above', inRows: true, ...cues }),
    );
    const written = mark(text, { cues: own }).matchAll(/<words(?: default-y="(-?\d+)")? font-family/g);
    return Array.from(written, ([, height]) => height);
  };
  const quarters = ['C5', 'D5', 'E5', 'F5'].map((pitch) => note(pitch, 4));
  const typed = quarters.map((one) => one.replace('</note>', '<type>quarter</type></note>'));

  it('are one for a row, on either side', () => {
    expect(heights(typed)).toEqual(['50', '50', '50', '50']);
    expect(heights(typed, { placement: 'below' })).toEqual(['-90', '-90', '-90', '-90']);
  });

  it('are none where texts have no room beside each other, or may stand in no row', () => {
    expect(heights(typed, { text: 'over the' })).toEqual([undefined, undefined, undefined, undefined]);
    expect(heights(typed, { inRows: false })).toEqual([undefined, undefined, undefined, undefined]);
  });

  it('are none behind words of the score, as far as the next measure', () => {
    const words = '<direction><direction-type><words>dolce</words></direction-type></direction>';
    expect(heights([words + typed[0], ...typed.slice(1)])).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    const barline = '</measure><measure number="2">';
    const next = (measure: string): string => `${barline}${measure}`;
    const later = [words + typed[0], next(typed[1]!), next(typed[2]!), typed[3]!];
    expect(heights(later)).toEqual([undefined, undefined, '50', '50']);
  });

  it('are none where programs have to guess the lengths of notes', () => {
    expect(heights(quarters)).toEqual([undefined, undefined, undefined, undefined]);
  });
});
