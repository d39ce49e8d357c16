import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { annotate } from '@handline/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { decode } from '../../packages/core/src/musicxml/decode.js';
import { DEFAULT_LIMITS } from '../../packages/core/src/musicxml/limits.js';
import type { OutsideView } from './outside-reader.js';
import { secondReader } from './second-reader.js';
import { missingScores, sharedScores } from './shared-scores.js';

const FIXTURES = fileURLToPath(new URL('../../fixtures/', import.meta.url));
/** The reader itself never ends on a score without divisions, marked or not. */
const ENDLESS = 'read/imperfect.musicxml';
/** Digits beside hidden or editorial notations of the user's: the reader looks at a note's first notations only. */
const BESIDE_THEIRS: Readonly<Record<string, number>> = { 'write/notations.musicxml': 2 };
const names = readdirSync(FIXTURES, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(?:musicxml|mxl)$/.test(name) && name !== ENDLESS)
  .sort();

let read: (text: string) => OutsideView;
beforeAll(() => {
  read = secondReader();
});

/** Marks a score; the reader must find the same music and exactly as much more as we say that we wrote. */
function compare(path: string, beyond = 0): { digits: number; words: number } {
  const { text } = decode(readFileSync(path), DEFAULT_LIMITS);
  const { output, report } = annotate(text, { density: 'every' });
  const [before, after] = [read(text), read(output)];
  expect(after.music).toBe(before.music);
  const sum = (value: (line: (typeof report.lines)[number]) => number) =>
    report.lines.reduce((total, line) => total + value(line), 0);
  const digits = after.digits.length - before.digits.length;
  // Substitutions are digits of their own.
  const changes = (output.match(/<\?handline digit [^?]*s\d/g) ?? []).length;
  expect(digits).toBe(sum((line) => line.fingered) + changes - beyond);
  const words = after.words.length - before.words.length;
  expect(words).toBe(sum((line) => line.cues));
  return { digits, words };
}

describe('OpenSheetMusicDisplay opens what we mark', () => {
  it.each(names)('%s', (name) => {
    compare(`${FIXTURES}${name}`, BESIDE_THEIRS[name]);
  });

  it('and shared scores', (context) => {
    if (missingScores !== undefined) return context.skip(missingScores);
    const paths = sharedScores(8, 0.3);
    const found = paths.map((path) => compare(path));
    const total = (kind: 'digits' | 'words') => found.reduce((sum, one) => sum + one[kind], 0);
    console.log(
      `second reader: ${total('digits')} digits and ${total('words')} words in ${paths.length} shared scores, all found`,
    );
    expect(total('digits')).toBeGreaterThan(paths.length);
  }, 600_000);
});
