import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { handModel } from '#core/anatomy/hand.js';
import { type Surroundings, surroundingsOf } from '#core/fingering/view/surroundings.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import { buildLines } from '#core/hands/build.js';
import type { Line } from '#core/hands/line.js';
import { readScore } from '#core/musicxml/read/score.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { Finger, Hand, Score } from '#core/score/model.js';

const SHARED = fileURLToPath(new URL('../../../shared/human-fingering/', import.meta.url));

/** The hand for which editors' digits are judged. */
export const HAND = handModel('medium');

/** Editors' digits of one slice: by view key, one entry a note head; empty where none is printed. */
export type EditorDigits = readonly (readonly Finger[])[];

/** One hand of one score with the digits that its editor printed. */
export interface Sample {
  readonly work: string;
  readonly hand: Hand;
  readonly line: Line;
  readonly views: readonly SliceView[];
  readonly surroundings: readonly Surroundings[];
  readonly digits: readonly EditorDigits[];
}

function readText(text: string): Score {
  return readScore(parseTree(text, DEFAULT_LIMITS), text, { limits: DEFAULT_LIMITS }).score;
}

export const MANIFEST = `${SHARED}manifest.json`;

export function hasSamples(): boolean {
  return existsSync(MANIFEST);
}

const DIGIT = /<fingering[^>]*>[^<]*<\/fingering>/g;

/**
 * Every hand of the shared scores.
 *
 * @param every every n-th digit of the editor is given as a constraint, the others are hidden and judged; 0 gives none
 */
export function loadSamples(every = 0): Sample[] {
  const manifest = JSON.parse(readFileSync(MANIFEST, 'utf8')) as {
    file: string;
    work_key: string;
  }[];
  return manifest.flatMap(({ file, work_key }) => {
    const text = readFileSync(`${SHARED}scores/${file}`, 'utf8');
    let count = 0;
    const given = text.replace(DIGIT, (digit) => (every > 0 && ++count % every === 0 ? digit : ''));
    const shown = readText(given);
    const whole = readText(text);
    return buildLines(shown, { existing: 'keep' }).lines.map((line): Sample => {
      const notes = whole.parts[line.part]!.notes;
      const hints = shown.parts[line.part]!.notes;
      const views = viewLine(line, HAND, every > 0);
      const digits = views.map((view) =>
        view.keys.map((_, at) => {
          if (!view.struck[at]) return [];
          return view.slice.struck[view.source[at]!]!.notes.flatMap((note) => {
            const plain = notes[note]!.digits.find((digit) => !digit.alternate && !digit.substitution);
            return plain && hints[note]!.digits.length === 0 ? [plain.finger] : [];
          });
        }),
      );
      return { work: work_key, hand: line.hand, line, views, surroundings: surroundingsOf(views), digits };
    });
  });
}
