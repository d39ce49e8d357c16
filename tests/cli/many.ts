import { copyFileSync, mkdirSync } from 'node:fs';
import { editions } from '../scores.js';

/** Scores of the run that `packages/cli/docs/editions.md` gives figures of. */
export const MANY = 232;

/** Copies the editions at hand, again and again, into so many subfolders of `folder`, all under one name. */
export function manyScores(folder: string): string[] {
  const scores = editions().filter((path) => !path.endsWith('.mxl'));
  return Array.from({ length: MANY }, (_, at) => {
    mkdirSync(`${folder}/${at}`, { recursive: true });
    copyFileSync(scores[at % scores.length]!, `${folder}/${at}/score.musicxml`);
    return `${at}/score.musicxml`;
  });
}
