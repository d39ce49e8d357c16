import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { fingerLine, handModel, readLines } from '#core/index.js';
import type { Fingerer } from '../judge.js';
import { playedOf } from '../played.js';
import { AIMS, countBreaches, perThousand, RULES, sumCounts } from './counts.js';

const SHARED = fileURLToPath(new URL('../../../../../shared/human-fingering/scores/', import.meta.url));
const OWN = ['demo', 'page'].map((room) =>
  fileURLToPath(new URL(`../../../../fixtures/${room}/`, import.meta.url)),
);
const DIGIT = /<fingering[^>]*>[^<]*<\/fingering>/g;

/** Scores to count over: the shared ones, else our own tunes. */
export function scoresToCount(): readonly string[] {
  const folders = existsSync(SHARED) ? [SHARED] : OWN;
  return folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.musicxml'))
      .map((name) => `${folder}${name}`),
  );
}

export const usual: Fingerer = (line, span, heed) => fingerLine(line, handModel(span), heed).fingering;

/** Breaches of the rules over scores, whose own digits are taken out first, one line a rule; medium hands. */
export function tellCounts(paths: readonly string[], finger: Fingerer = usual): string {
  let notes = 0;
  const all = paths.flatMap((path) => {
    const text = readFileSync(path, 'utf8').replace(DIGIT, '');
    return readLines(text).lines.map(({ line, context }) => {
      notes += line.slices.reduce((sum, { struck }) => sum + struck.length, 0);
      return countBreaches(playedOf(line, finger(line, 'medium', context), 'medium'));
    });
  });
  const sums = sumCounts(all);
  const rows = RULES.map((rule) => {
    const { occasions, breaches } = sums[rule];
    const rate = perThousand(sums[rule]).toFixed(1).padStart(7);
    return `${rate} per 1,000 (aim ${AIMS[rule]})  ${rule}: ${breaches} of ${occasions}`;
  });
  return [`${paths.length} scores, ${notes} keys struck, digits of the scores ignored:`, ...rows].join('\n');
}
