import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import type { AnnotateOptions } from '#core/options/options.js';
import { editions, FIXTURES, TUNES } from '../scores.js';

const CHOICES: readonly AnnotateOptions[] = [
  { legend: true, layers: ['depth', 'crossing', 'carry', 'contour', 'roll'], density: 'every' },
  { existing: 'replace', language: 'de' },
];

const PATHS = [...TUNES.map((name) => `${FIXTURES}${name}`), ...editions(3, 0.2)];

const bytesOf = (path: string) => new Uint8Array(readFileSync(path));
const same = (a: Uint8Array, b: Uint8Array) => Buffer.from(a).equals(Buffer.from(b));

describe('every fixture, as bytes', () => {
  it.each(PATHS.map((path) => [basename(path), path]))('%s comes back byte for byte', (_, path) => {
    const original = bytesOf(path);
    let last = original;
    for (const options of CHOICES) {
      last = annotate(last, options).output;
      expect(same(last, annotate(original, options).output)).toBe(true);
      expect(same(last, annotate(last, options).output)).toBe(true);
      const cleared = clear(last);
      expect(cleared.warnings).toEqual([]);
      expect(same(cleared.output, original)).toBe(true);
    }
  });

  it('is marked', () => {
    const untouched = PATHS.filter((path) =>
      same(annotate(bytesOf(path), { density: 'every' }).output, bytesOf(path)),
    );
    expect(untouched).toEqual([]);
  });
});
