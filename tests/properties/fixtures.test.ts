import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import type { AnnotateOptions } from '#core/options/options.js';
import { PATIENT } from './runs.js';

const FOLDER = fileURLToPath(new URL('../../fixtures/', import.meta.url));
const SCORES = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(?:musicxml|mxl)$/.test(name))
  .sort();

const CHOICES: readonly AnnotateOptions[] = [
  { legend: true, layers: ['depth', 'crossing', 'carry', 'contour', 'roll'], density: 'every' },
  { existing: 'replace', language: 'de' },
];

const bytesOf = (name: string) => new Uint8Array(readFileSync(`${FOLDER}${name}`));
const same = (a: Uint8Array, b: Uint8Array) => Buffer.from(a).equals(Buffer.from(b));

describe('every fixture, as bytes', () => {
  it.each(SCORES)('%s comes back byte for byte', PATIENT, (name) => {
    const original = bytesOf(name);
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

  it('is marked', PATIENT, () => {
    const untouched = SCORES.filter((name) => same(annotate(bytesOf(name)).output, bytesOf(name)));
    expect(untouched).toEqual([]);
  });
});
