import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CueMark } from '#core/musicxml/marks/edit.js';
import { type Placed, rowsOf } from '#core/musicxml/marks/places/rows.js';
import { widthOf } from '#core/musicxml/marks/places/widths.js';
import { rounds } from '../rounds.js';
import { attributes, note, onePart } from './read-source.js';
import { mark } from './write-source.js';

/** Texts by where they begin and end and how far out lies what is beside them. */
const placed = (...texts: readonly (readonly [number, number, number?, boolean?])[]): Placed[] =>
  texts.map(([left, right, extent = 0, isFree = true], cue) => ({ cue, left, right, extent, isFree }));

const rows = (texts: readonly Placed[]): number[][] => rowsOf(texts).map((row) => row.map(({ cue }) => cue));

describe('rows of texts', () => {
  it('hold neighbours that are clear of each other', () => {
    expect(rows(placed([0, 9], [9, 17], [18, 26]))).toEqual([[0, 1, 2]]);
    expect(rows(placed([0, 9.1], [9, 17], [18, 26]))).toEqual([[1, 2]]);
  });

  it('end before a text that reaches over the next; that begins a row only where it cannot slip under it', () => {
    expect(rows(placed([0, 8], [9, 17], [18, 26], [20, 28], [30, 38], [40, 48]))).toEqual([
      [0, 1],
      [3, 4, 5],
    ]);
    expect(rows(placed([0, 8], [9, 17], [18, 26, 3], [20, 28, 2], [30, 38], [40, 48]))).toEqual([
      [0, 1],
      [3, 4, 5],
    ]);
    expect(rows(placed([0, 8], [9, 17], [18, 26, 4], [20, 28, 2], [30, 38], [40, 48]))).toEqual([
      [0, 1],
      [4, 5],
    ]);
  });

  it('hold no text that something else may be in the way of', () => {
    expect(rows(placed([0, 8], [10, 18], [20, 28, 0, false], [30, 38], [40, 48]))).toEqual([
      [0, 1],
      [3, 4],
    ]);
  });

  const text = fc.tuple(
    fc.integer({ min: 1, max: 12 }),
    fc.integer({ min: 1, max: 12 }),
    fc.nat(12),
    fc.boolean(),
  );

  it('never lift one text into another, whatever lies beside them', () => {
    fc.assert(
      fc.property(fc.array(text, { minLength: 2, maxLength: 12 }), (drawn) => {
        let left = 0;
        const texts = drawn.map(([apart, width, extent, isFree], cue): Placed => {
          left += apart;
          return { cue, left, right: left + width, extent, isFree };
        });
        const heights = lifted(texts, rowsOf(texts));
        for (const [at, one] of texts.entries()) {
          for (const other of texts.slice(at + 1)) {
            if (one.right > other.left)
              expect(Math.abs(heights[at]! - heights[other.cue]!)).toBeGreaterThanOrEqual(LINE);
          }
        }
      }),
      rounds(2000),
    );
  });
});

/** Steps that a line of text takes. */
const LINE = 4;

/**
 * What verovio does, restated: each text goes outside what lies beside it and outside the texts before it that it would lie on,
 * one after the other, then each row to its furthest.
 */
function lifted(texts: readonly Placed[], rowsThere: readonly (readonly Placed[])[]): number[] {
  const heights: number[] = [];
  for (const [at, { left, extent }] of texts.entries()) {
    let height = extent;
    let isMoved = true;
    while (isMoved) {
      isMoved = false;
      for (const before of texts.slice(0, at)) {
        if (before.right <= left || Math.abs(heights[before.cue]! - height) >= LINE) continue;
        height = heights[before.cue]! + LINE;
        isMoved = true;
      }
    }
    heights.push(height);
  }
  const own = [...heights];
  for (const row of rowsThere) {
    const furthest = Math.max(...row.map(({ cue }) => own[cue]!));
    for (const { cue } of row) heights[cue] = furthest;
  }
  return heights;
}

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
