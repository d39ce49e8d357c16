import { annotate, HandlineError } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, backup, note, onePart, rest } from '../musicxml/read-source.js';

const empty = attributes() + rest(16);
const full = note('C5', 16) + backup(16) + note('C3', 16, { staff: 2, voice: '5' });
const rightOnly = note('C5', 16);

const codes = (text: string, options = {}) => annotate(text, options).report.warnings.map(({ code }) => code);

describe('a selection without notes', () => {
  const score = onePart([empty, full, rightOnly]);

  it('is told, and the file stays as it is', () => {
    for (const options of [
      { measures: { from: '1', to: '1' } },
      { measures: { from: '3', to: '3' }, hands: 'left' as const },
    ]) {
      const { output, report } = annotate(score, { ...options, file: 'a.xml' });
      expect(output).toBe(score);
      expect(report.warnings).toMatchObject([{ code: 'EMPTY_SELECTION', place: { file: 'a.xml' } }]);
      expect(() => annotate(score, { ...options, strict: true })).toThrow(HandlineError);
    }
    expect(codes(onePart([empty]))).toEqual(['EMPTY_SELECTION']);
    expect(codes(onePart([attributes() + rightOnly]), { hands: 'left' })).toEqual(['EMPTY_SELECTION']);
  });

  it('says which', () => {
    const { report } = annotate(score, { measures: { from: '3', to: '3' }, hands: 'left' });
    expect(report.warnings[0]?.message).toBe('the left hand has no notes in measures 3-3; nothing is marked');
  });

  it('is none where something is marked, or where no piano is to be found', () => {
    expect(codes(score)).toEqual([]);
    expect(codes(score, { measures: { from: '1', to: '2' } })).toEqual([]);
    expect(codes(score, { hands: 'right', measures: { from: '3', to: '3' } })).toEqual([]);
    expect(codes(onePart([empty], 'Flute').replaceAll('<staves>2', '<staves>1'))).toEqual(['NO_PIANO']);
  });
});

describe('digits of the file', () => {
  const fingering = (digit: number) => `<technical><fingering>${digit}</fingering></technical>`;
  const measure = (first: number, second: number) =>
    onePart([
      attributes() +
        note('C5', 8, { notations: fingering(first) }) +
        note('E5', 8, { lead: '<chord/>', notations: fingering(second) }) +
        note('D5', 8),
    ]);

  it('are counted as kept, ours as fingered', () => {
    expect(annotate(measure(1, 3)).report.lines[0]).toMatchObject({ notes: 3, fingered: 1, kept: 2 });
    const ignored = annotate(measure(1, 3), { existing: 'ignore' }).report.lines[0];
    expect(ignored).toMatchObject({ notes: 3, fingered: 1, kept: 2 });
    const replaced = annotate(measure(1, 3), { existing: 'replace' }).report.lines[0];
    expect(replaced).toMatchObject({ notes: 3, fingered: 3, kept: 0 });
  });

  it.each([
    ['the same finger on two keys', 3, 3],
    ['crossed over', 5, 1],
  ])('that no hand can play are kept in print and told: %s', (_, first, second) => {
    const text = measure(first, second);
    const { output, report } = annotate(text, { layers: [] });
    expect(report.warnings).toMatchObject([
      { code: 'DIGIT_CONFLICT', place: { part: 'P1', measure: '1', line: 1 } },
    ]);
    for (const digit of [first, second]) expect(output).toContain(`<fingering>${digit}</fingering>`);
    expect(report.lines[0]?.slices[0]?.fingers).toEqual([first, second]);
  });
});
