import { describe, expect, it } from 'vitest';
import { LineIndex, placeAt, positionOf } from '#core/musicxml/xml/position.js';

describe('line and column', () => {
  it.each([
    ['', 0, 1, 1],
    ['abc', 2, 1, 3],
    ['a\nbc', 1, 1, 2],
    ['a\nbc', 2, 2, 1],
    ['a\r\nbc', 2, 1, 3],
    ['a\r\nbc', 4, 2, 2],
    ['a\rb\rc', 4, 3, 1],
    // One line feed and all line ends are line feeds.
    ['a\rb\nc', 4, 2, 1],
    ['\n\n\n', 3, 4, 1],
    ['a\nb', 99, 2, 98],
  ])('of %j at %i', (text, offset, line, column) => {
    expect(positionOf(text, offset)).toEqual({ line, column });
    expect(placeAt(text, offset)).toEqual({ line, column });
    expect(placeAt(text, offset, 'f')).toEqual({ file: 'f', line, column });
  });

  it('of every offset of a long text, upwards, downwards and by leaps', () => {
    const lines = Array.from({ length: 300 }, (_, at) => 'x'.repeat(at % 4));
    const text = lines.join('\n');
    const index = new LineIndex(text);
    const expected = lines.flatMap((line, at) => [...`${line}\n`].map(() => at + 1));
    const offsets = [...text].map((_, at) => at);
    const leaps = offsets.map((at) => (at * 331) % text.length);
    for (const order of [offsets, offsets.toReversed(), leaps])
      for (const offset of order) expect(index.lineAt(offset)).toBe(expected[offset]);
    lines.forEach((_, at) => {
      expect(index.startOf(at + 1)).toBe(expected.indexOf(at + 1));
    });
    expect(index.startOf(301)).toBe(0);
  });
});
