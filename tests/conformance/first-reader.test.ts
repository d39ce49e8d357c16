import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { compareMarked, textOf } from './compare-marked.js';
import { type OutsideView, outsideReader } from './outside-reader.js';
import { missingScores, sharedScores } from './shared-scores.js';

const FIXTURES = fileURLToPath(new URL('../../fixtures/', import.meta.url));
/** verovio reads not one note of a score without divisions, marked or not. */
const UNREAD = 'read/imperfect.musicxml';
/** Digits beside editorial notations of the user's: verovio looks at a note's first notations only. */
const BESIDE_THEIRS: Readonly<Record<string, number>> = { 'write/notations.musicxml': 1 };
const names = readdirSync(FIXTURES, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(?:musicxml|mxl)$/.test(name) && name !== UNREAD)
  .sort();

let read: (text: string) => OutsideView;
beforeAll(async () => {
  read = await outsideReader();
});

// Generated scores: tests/properties/annotate.test.ts.
describe('verovio opens what we mark', () => {
  it.each(names)('%s', (name) => {
    compareMarked(read, textOf(`${FIXTURES}${name}`), BESIDE_THEIRS[name]);
  });

  it('and shared scores', (context) => {
    if (missingScores !== undefined) return context.skip(missingScores);
    const found = sharedScores(8, 0.8).map((path) => compareMarked(read, textOf(path)));
    const total = (kind: 'digits' | 'words') => found.reduce((sum, one) => sum + one[kind], 0);
    console.log(
      `verovio: ${total('digits')} digits and ${total('words')} words in ${found.length} shared scores, all found`,
    );
    expect(total('digits')).toBeGreaterThan(found.length);
  }, 600_000);
});
