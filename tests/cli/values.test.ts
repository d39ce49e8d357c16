import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { handModel } from '@handline/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  parseCount,
  parseLayers,
  parseMeasures,
  parseSpan,
  parseStaff,
  readWording,
} from '../../packages/cli/src/options/values.js';
import { oneLine } from '../../packages/cli/src/output/line.js';

describe('values of options', () => {
  test("a span is core's to read, for both hands or for each", () => {
    expect(parseSpan('210')).toBe('210');
    expect(parseSpan('9th')).toBe('9th');
    expect(parseSpan('right=9th,left=200')).toEqual({ right: '9th', left: '200' });
    expect(parseSpan('right=18,5cm,left=17,5cm')).toEqual({ right: '185', left: '175' });
    expect(parseSpan('left=small')).toEqual({ left: 'small' });
  });

  test.each([
    ['20cm', '200'],
    ['20.5 cm', '205'],
    ['18,5cm', '185'],
    ['octave', '8th'],
    ['Tenth', '10th'],
    ['8th', '8th'],
  ])('a span of %s is %s', (text, span) => {
    expect(parseSpan(text)).toBe(span);
    expect(parseSpan(`left=${text}`)).toEqual({ left: span });
    expect(() => handModel(span)).not.toThrow();
  });

  test.each([
    ['8', 'write 8th for the interval'],
    ['21', 'write 210 for 21 cm'],
    ['right=20.5,left=9th', 'write 205 for 20.5 cm'],
  ])('a span of %s is refused with what to write', (text, advice) => {
    expect(() => parseSpan(text)).toThrow(`--span ${text}: ${advice}`);
  });

  test('all layers', () => {
    expect(parseLayers('all')).toEqual(['depth', 'crossing', 'carry', 'contour', 'roll']);
  });

  test.each(['right=9th,right=8th', 'middle=9th', 'right=,left=2', 'right=9th,', '='])(
    'span %s is refused',
    (text) => {
      expect(() => parseSpan(text)).toThrow(/--span/);
    },
  );

  test('staves by hand, several of them, or a single hand', () => {
    expect(parseStaff('right=1,left=2')).toEqual({ right: [1], left: [2] });
    expect(parseStaff('right=1+2,left=3')).toEqual({ right: [1, 2], left: [3] });
    expect(parseStaff('left')).toEqual({ left: [1] });
  });

  test.each(['both', '1,2', 'right=0', 'right=1.5', 'right=1,left=x', 'right=1++2', 'right=-1'])(
    'staff %s is refused',
    (text) => {
      expect(() => parseStaff(text)).toThrow(/--staff/);
    },
  );

  test('measures are printed numbers, which need not be digits', () => {
    expect(parseMeasures('5-12')).toEqual({ from: '5', to: '12' });
    expect(parseMeasures('7')).toEqual({ from: '7', to: '7' });
    expect(parseMeasures('X1 - 12a')).toEqual({ from: 'X1', to: '12a' });
  });

  test.each(['', '-', '5-', '-5', '1-2-3'])('measures "%s" are refused', (text) => {
    expect(() => parseMeasures(text)).toThrow(/--measures/);
  });

  test('layers, or none', () => {
    expect(parseLayers('carry, depth')).toEqual(['carry', 'depth']);
    expect(parseLayers('none')).toEqual([]);
    expect(() => parseLayers('depth,dpeth')).toThrow(/no layer "dpeth"; choose from depth, crossing/);
  });

  test('counts are whole numbers in range, whatever is typed', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.double().map(String), fc.nat().map(String)), (text) => {
        let count: number;
        try {
          count = parseCount('alternatives', text, 0);
        } catch (error) {
          expect(error).toMatchObject({ exit: 2 });
          return;
        }
        expect(
          Number.isSafeInteger(count) && count >= 0 && String(count) === text.replace(/^0+(?=\d)/, ''),
        ).toBe(true);
      }),
    );
  });

  test('wording is a JSON object of texts', () => {
    const folder = mkdtempSync(join(tmpdir(), 'handline-wording-'));
    const file = join(folder, 'words.json');
    try {
      writeFileSync(file, '{"in": "nach innen"}');
      expect(readWording(file)).toEqual({ in: 'nach innen' });
      for (const bad of ['{"in": 3}', '[]', 'null', '{', '"in"']) {
        writeFileSync(file, bad);
        expect(() => readWording(file)).toThrow(/--wording/);
      }
      expect(() => readWording(join(folder, 'none.json'))).toThrow(/cannot be read/);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe('one line', () => {
  test('nothing from a file breaks the line or steers the terminal', () => {
    expect(oneLine('a\r\n  b')).toBe('a b');
    expect(oneLine('\u001b[31mred\u202e')).toBe('\\u001b[31mred\\u202e');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(oneLine(text)).not.toMatch(/[\p{Cc}\u2028\u2029]/u);
      }),
    );
  });
});
