import { compare } from '../../../numeric/fraction.js';
import type { Note, Score } from '../../../score/model.js';
import type { CueMark } from '../edit.js';

/** The cues on either side of every staff: their indices, as their notes follow each other. */
export function sidesOf(score: Score, cues: readonly CueMark[]): Iterable<readonly number[]> {
  const sides = new Map<string, number[]>();
  for (const [at, { part, note, placement }] of cues.entries()) {
    const own = score.parts[part]?.notes[note];
    if (own === undefined) continue;
    const name = `${part} ${own.staff} ${placement}`;
    const side = sides.get(name);
    if (side === undefined) sides.set(name, [at]);
    else side.push(at);
  }
  const onset = (at: number) => noteOf(score, cues[at]!).onset;
  for (const side of sides.values()) side.sort((a, b) => compare(onset(a), onset(b)));
  return sides.values();
}

/** The note at which a cue of `sidesOf` stands. */
export function noteOf({ parts }: Score, { part, note }: CueMark): Note {
  return parts[part]!.notes[note]!;
}
