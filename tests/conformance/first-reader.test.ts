import { beforeAll, describe, expect, it } from 'vitest';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { compareMarked, textOf } from './compare-marked.js';
import { type OutsideView, outsideReader } from './outside-reader.js';

/** verovio reads not one note of a score without divisions, marked or not. */
const UNREAD = 'read/imperfect.musicxml';
/** Digits beside editorial notations of the user's: verovio looks at a note's first notations only. */
const BESIDE_THEIRS: Readonly<Record<string, number>> = { 'write/notations.musicxml': 1 };
const names = TUNES.filter((name) => name !== UNREAD);

let read: (text: string) => OutsideView;
beforeAll(async () => {
  read = await outsideReader();
});

// Generated scores: tests/properties/annotate.test.ts.
describe('verovio opens what we mark', () => {
  it.each(names)('%s', (name) => {
    compareMarked(read, textOf(`${FIXTURES}${name}`), BESIDE_THEIRS[name]);
  });

  it('and editions', () => {
    const found = editions(2, 0.8).map((path) => compareMarked(read, textOf(path)));
    const total = (kind: 'digits' | 'words') => found.reduce((sum, one) => sum + one[kind], 0);
    console.log(
      `verovio: ${total('digits')} digits and ${total('words')} words in ${found.length} editions, all found`,
    );
    expect(total('digits')).toBeGreaterThan(found.length);
  });
});
