import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { withoutNotations } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { rounds } from '../rounds.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { compareMarked, textOf } from './compare-marked.js';
import type { OutsideView } from './outside-reader.js';
import { secondReader } from './second-reader.js';

/** The reader itself never ends on a score without divisions, marked or not. */
const ENDLESS = 'read/imperfect.musicxml';
/** Digits beside hidden or editorial notations of the user's: the reader looks at a note's first notations only. */
const BESIDE_THEIRS: Readonly<Record<string, number>> = { 'write/notations.musicxml': 2 };
/** The reader looks at a note's first `<technical>` only: at ours, where the user's digits stand in later notations. */
const visible = withoutNotations('editorial', 'hidden', 'digit', 'two-digits', 'no-digit-text');
const names = TUNES.filter((name) => name !== ENDLESS);

const FEW = rounds(10, 150);

let read: (text: string) => OutsideView;
beforeAll(() => {
  read = secondReader();
});

describe('OpenSheetMusicDisplay opens what we mark', () => {
  it.each(names)('%s', (name) => {
    compareMarked(read, textOf(`${FIXTURES}${name}`), BESIDE_THEIRS[name]);
  });

  it('generated scores', () => {
    let [digits, words] = [0, 0];
    fc.assert(
      fc.property(visible, (model) => {
        const found = compareMarked(read, toXml(model));
        digits += found.digits;
        words += found.words;
      }),
      FEW,
    );
    expect(Math.min(digits, words)).toBeGreaterThan(FEW.numRuns);
  });

  it('and editions', () => {
    const paths = editions(1, 0.65);
    const found = paths.map((path) => compareMarked(read, textOf(path)));
    const total = (kind: 'digits' | 'words') => found.reduce((sum, one) => sum + one[kind], 0);
    console.log(
      `second reader: ${total('digits')} digits and ${total('words')} words in ${paths.length} editions, all found`,
    );
    expect(total('digits')).toBeGreaterThan(paths.length);
  });
});
