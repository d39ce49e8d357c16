import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { withoutNotations } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { PATIENT } from '../properties/runs.js';
import { compareMarked, textOf } from './compare-marked.js';
import type { OutsideView } from './outside-reader.js';
import { secondReader } from './second-reader.js';
import { missingScores, sharedScores } from './shared-scores.js';

const FIXTURES = fileURLToPath(new URL('../../fixtures/', import.meta.url));
/** The reader itself never ends on a score without divisions, marked or not. */
const ENDLESS = 'read/imperfect.musicxml';
/** Digits beside hidden or editorial notations of the user's: the reader looks at a note's first notations only. */
const BESIDE_THEIRS: Readonly<Record<string, number>> = { 'write/notations.musicxml': 2 };
/** The reader looks at a note's first `<technical>` only: at ours, where the user's digits stand in later notations. */
const visible = withoutNotations('editorial', 'hidden', 'digit', 'two-digits', 'no-digit-text');
const names = readdirSync(FIXTURES, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(?:musicxml|mxl)$/.test(name) && name !== ENDLESS)
  .sort();

let read: (text: string) => OutsideView;
beforeAll(() => {
  read = secondReader();
});

describe('OpenSheetMusicDisplay opens what we mark', () => {
  it.each(names)('%s', (name) => {
    compareMarked(read, textOf(`${FIXTURES}${name}`), BESIDE_THEIRS[name]);
  });

  it('generated scores', PATIENT, () => {
    let [digits, words] = [0, 0];
    fc.assert(
      fc.property(visible, (model) => {
        const found = compareMarked(read, toXml(model));
        digits += found.digits;
        words += found.words;
      }),
      { numRuns: 100 },
    );
    expect(Math.min(digits, words)).toBeGreaterThan(100);
  });

  it('and shared scores', (context) => {
    if (missingScores !== undefined) return context.skip(missingScores);
    const paths = sharedScores(8, 0.3);
    const found = paths.map((path) => compareMarked(read, textOf(path)));
    const total = (kind: 'digits' | 'words') => found.reduce((sum, one) => sum + one[kind], 0);
    console.log(
      `second reader: ${total('digits')} digits and ${total('words')} words in ${paths.length} shared scores, all found`,
    );
    expect(total('digits')).toBeGreaterThan(paths.length);
  }, 600_000);
});
