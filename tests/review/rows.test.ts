import { describe, expect, it } from 'vitest';
import { type Language, reviewMarkdown, reviewText } from '#core/index.js';
import { rowByMeasure, shortRow } from '#core/review/findings/rows.js';
import { reviewOf } from './score.js';

describe('digits in a row', () => {
  it.each([
    ['1 2 3 1 2', '1 2 3 1 2'],
    ['1 1 1', '1 1 1'],
    ['1 1 1 1 1', '1 (5 times)'],
    ['5 1-2 1-2 1-2 1-2 1-2 4', '5, 1-2 (5 times), 4'],
    ['2-5 1-5 2-5 1-5 2-5 1-5 2-3 1', '2-5 1-5 (3 times), 2-3 1'],
    ['1 2 3 1 2 3 4 5 4 3 2 1 3 2 1 4 5', '1 2 3 1 2 3 4 5 4 … 1 4 5'],
  ])('%s is written as %s', (row, text) => {
    expect(shortRow(row.split(' '), 'en')).toBe(text);
  });

  it('have a stroke for every barline', () => {
    expect(rowByMeasure(['1', '2', '3', '1'], ['1', '1', '2', '3'], 'en')).toBe('1 2 | 3 | 1');
  });
});

const LANGUAGES: readonly Language[] = ['en', 'de', 'fr', 'es', 'it'];

describe('inferred digits', () => {
  it('stand in brackets in a finding and its remedy', () => {
    const { findings } = reviewOf('right', 'E5 C4=4 r r C4 C4=2 E4 D4=2 C4');
    const texts = findings.map(({ text, remedy }) => `${text} ${remedy?.text}`).join(' ');
    expect(texts).toMatch(/\([1-5]\) on/);
  });

  it.each(LANGUAGES)(
    'stand in brackets among all digits of a score that leaves some open, in %s',
    (language) => {
      const own = reviewOf('right', 'C4=1 D4 E4=3 F4 | G4=5 E4 C4=1', {}, { language });
      expect(own.passages.flatMap(({ fingering }) => fingering.flatMap(({ printed }) => printed))).toEqual([
        true,
        false,
        true,
        false,
        true,
        false,
        true,
      ]);
      expect(reviewText(own, { title: 'x', all: true })).toContain('      1 (2) 3 (4) | 5 (3) 1\n');
      expect(reviewMarkdown(own, { title: 'x' })).toContain('  1 (2) 3 (4) \\| 5 (3) 1\n');
      expect(reviewText(own, { title: 'x' })).not.toContain(' | ');
    },
  );

  it('are not listed where every note has a digit', () => {
    const own = reviewOf('right', 'C4=1 D4=2 E4=3 F4=4 | G4=5 E4=3 C4=1');
    expect(reviewText(own, { title: 'x', all: true })).not.toContain(' | ');
  });
});

it.each([...LANGUAGES])(
  '%s: chords of which a hand cannot reach all keys are named by their measure',
  (language) => {
    const own = reviewOf('right', 'C4=1 D4=2 | C4=1+C6=5 E4=3 | C4+C6', {}, { language });
    const words = reviewText(own, { title: 'x' }).split('\n').join(' ');
    expect(words).toMatch(/: \D+ 2, \D+ 3\./);
  },
);
