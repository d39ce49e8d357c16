import fc from 'fast-check';
import MagicString from 'magic-string';
import { describe, expect, it } from 'vitest';
import type { Edit } from '#core/musicxml/marks/edit.js';
import { applyEdits } from '#core/musicxml/marks/edits.js';

/** A text and edits that do not overlap, in the order of the text. */
const texts = fc
  .array(
    fc.tuple(fc.string({ unit: 'grapheme', minLength: 1 }), fc.string({ unit: 'grapheme' }), fc.nat(2)),
    {
      maxLength: 12,
    },
  )
  .map((pieces) => {
    const edits: Edit[] = [];
    let text = '';
    for (const [piece, inserted, kind] of pieces) {
      const start = text.length;
      text += piece;
      if (kind === 1) edits.push({ start, end: start, text: inserted });
      if (kind === 2) edits.push({ start, end: text.length, text: inserted });
    }
    return { text, edits };
  });

describe('applyEdits', () => {
  it('agrees with magic-string, in any order of the edits', () => {
    fc.assert(
      fc.property(texts, fc.infiniteStream(fc.nat()), ({ text, edits }, random) => {
        const oracle = new MagicString(text);
        for (const edit of edits) {
          if (edit.start === edit.end) oracle.appendLeft(edit.start, edit.text);
          else if (edit.text === '') oracle.remove(edit.start, edit.end);
          else oracle.overwrite(edit.start, edit.end, edit.text, { contentOnly: true });
        }
        const keyed = edits.map((edit) => ({ edit, key: random.next().value as number }));
        const shuffled = keyed.sort((a, b) => a.key - b.key).map(({ edit }) => edit);
        expect(applyEdits(text, shuffled)).toBe(oracle.toString());
      }),
      { numRuns: 500 },
    );
  });

  it('keeps the order of insertions at one place, and puts them before a replacement there', () => {
    const edits = [
      { start: 1, end: 2, text: 'R' },
      { start: 1, end: 1, text: '1' },
      { start: 1, end: 1, text: '2' },
      { start: 2, end: 2, text: '3' },
    ];
    expect(applyEdits('abc', edits)).toBe('a12R3c');
  });

  it('leaves the text as it is without edits', () => {
    expect(applyEdits('a\u{1f3b9}b', [])).toBe('a\u{1f3b9}b');
  });

  it.each<[string, string, Edit[]]>([
    ['an edit beyond the end', 'does not lie', [{ start: 3, end: 5, text: '' }]],
    ['a negative start', 'does not lie', [{ start: -1, end: 0, text: '' }]],
    ['an end before its start', 'does not lie', [{ start: 2, end: 1, text: '' }]],
    ['half an offset', 'does not lie', [{ start: 0.5, end: 1, text: '' }]],
    ['no number', 'does not lie', [{ start: Number.NaN, end: 1, text: '' }]],
    [
      'overlapping ranges',
      'overlaps',
      [
        { start: 0, end: 2, text: '' },
        { start: 1, end: 3, text: '' },
      ],
    ],
    [
      'an insertion inside a replaced range',
      'overlaps',
      [
        { start: 0, end: 2, text: '' },
        { start: 1, end: 1, text: 'x' },
      ],
    ],
  ])('refuses %s', (_, message, edits) => {
    expect(() => applyEdits('abcd', edits)).toThrow(message);
    expect(() => applyEdits('abcd', edits)).toThrow(RangeError);
  });

  it('refuses to cut a character in two or to write half a one', () => {
    expect(() => applyEdits('a\u{1f3b9}b', [{ start: 2, end: 2, text: 'x' }])).toThrow('in two');
    expect(() => applyEdits('a\u{1f3b9}b', [{ start: 0, end: 2, text: 'x' }])).toThrow('in two');
    expect(() => applyEdits('ab', [{ start: 1, end: 1, text: '\ud83c' }])).toThrow('half a character');
    expect(() => applyEdits('ab', [{ start: 1, end: 1, text: '\udfb9x' }])).toThrow('half a character');
  });
});
