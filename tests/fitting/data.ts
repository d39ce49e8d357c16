import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { handModel } from '../../packages/core/src/anatomy/hand.js';
import { outlooks } from '../../packages/core/src/fingering/outlook.js';
import type { Outlook } from '../../packages/core/src/fingering/terms/term.js';
import { type SliceView, viewLine } from '../../packages/core/src/fingering/view.js';
import { buildLines } from '../../packages/core/src/hands/build.js';
import type { Hand, Line } from '../../packages/core/src/hands/line.js';
import { DEFAULT_LIMITS } from '../../packages/core/src/musicxml/limits.js';
import { readScore } from '../../packages/core/src/musicxml/read.js';
import { parseTree } from '../../packages/core/src/musicxml/tree.js';
import type { Finger } from '../../packages/core/src/score/model.js';

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
  readonly around: readonly Outlook[];
  readonly digits: readonly EditorDigits[];
}

export function hasSamples(): boolean {
  return existsSync(`${SHARED}manifest.json`);
}

/** Every hand of the shared scores; the digits are no constraints. */
export function loadSamples(): Sample[] {
  const manifest = JSON.parse(readFileSync(`${SHARED}manifest.json`, 'utf8')) as {
    file: string;
    work_key: string;
  }[];
  return manifest.flatMap(({ file, work_key }) => {
    const text = readFileSync(`${SHARED}scores/${file}`, 'utf8');
    const root = parseTree(text, DEFAULT_LIMITS);
    const { score } = readScore(root, text, { limits: DEFAULT_LIMITS, isOurs: () => false });
    return buildLines(score, { existing: 'ignore' }).lines.map((line): Sample => {
      const notes = score.parts[line.part]!.notes;
      const views = viewLine(line, HAND, false);
      const digits = views.map((view) =>
        view.keys.map((_, at) => {
          if (!view.struck[at]) return [];
          return view.slice.struck[view.source[at]!]!.notes.flatMap((note) => {
            const plain = notes[note]!.digits.find((digit) => !digit.alternate && !digit.substitution);
            return plain ? [plain.finger] : [];
          });
        }),
      );
      return { work: work_key, hand: line.hand, line, views, around: outlooks(views), digits };
    });
  });
}
