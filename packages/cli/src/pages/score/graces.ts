import { tagsOf } from './tags.js';

/** The most grace notes that follow one another in a score, chords and all voices counted as they are written. */
export function mostGraces(text: string): number {
  let [most, run] = [0, 0];
  let isGrace = false;
  for (const { name, kind } of tagsOf(text, ['note', 'grace'])) {
    if (name === 'grace') isGrace = isGrace || kind !== 'end';
    else if (kind === 'start') isGrace = false;
    else {
      run = isGrace ? run + 1 : 0;
      most = Math.max(most, run);
    }
  }
  return most;
}
