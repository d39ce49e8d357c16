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

const PATHS = [...TUNES.map((name) => `${FIXTURES}${name}`), ...editions(2, 0.85)];

const bytesOf = (path: string) => new Uint8Array(readFileSync(path));
const same = (a: Uint8Array, b: Uint8Array) => Buffer.from(a).equals(Buffer.from(b));

describe('every fixture, as bytes', () => {
  it.each(PATHS.map((path) => [basename(path), path]))(
    '%s is marked, and comes back byte for byte',
    (_, path) => {
      const original = bytesOf(path);
      let last = original;
      for (const options of CHOICES) {
        const marked = annotate(original, options).output;
        expect(same(marked, original)).toBe(false);
        // Over other marks, and over its own.
        if (last !== original) expect(same(annotate(last, options).output, marked)).toBe(true);
        expect(same(annotate(marked, options).output, marked)).toBe(true);
        const cleared = clear(marked);
        expect(cleared.warnings).toEqual([]);
        expect(same(cleared.output, original)).toBe(true);
        last = marked;
      }
    },
  );
});
