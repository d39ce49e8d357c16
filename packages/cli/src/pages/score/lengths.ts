import { tagsOf } from './tags.js';

/** Quarter notes that the longest measure of a score takes, as its notes, rests and moves in time are written. */
export function longestMeasure(text: string): number {
  let [longest, at, divisions] = [0, 0, 1];
  let from = 0;
  let isChord = false;
  let duration = 0;
  const names = ['measure', 'divisions', 'note', 'backup', 'forward', 'chord', 'duration'];
  for (const { name, kind, start, end } of tagsOf(text, names)) {
    if (name === 'chord') isChord = true;
    else if (name === 'divisions' || name === 'duration') {
      const value = kind === 'end' ? Number.parseFloat(text.slice(from, start)) : 0;
      if (name === 'duration') duration = value;
      else if (value > 0) divisions = value;
      from = end;
    } else if (name === 'measure') at = 0;
    else if (kind === 'start') [isChord, duration] = [false, 0];
    else {
      const quarters = (duration || 0) / divisions;
      if (name === 'backup') at = Math.max(0, at - quarters);
      else if (!isChord) at += quarters;
      longest = Math.max(longest, at);
    }
  }
  return longest;
}
