import type { PartDraft } from './readdraft.js';

/**
 * Gives notes the hand that words such as "m.s." ask for. A word governs the notes of its staff from where it stands
 * until the next such word on the staff, the staff's first rest after one of its notes, or the end of the next measure,
 * whichever comes first: editors write it for a few notes and seldom write where it ends (common practice).
 * @param starts start of every measure in ticks
 */
export function applyHandWords(part: PartDraft, starts: readonly number[]): void {
  const words = part.events.filter((event) => event.hand !== undefined);
  if (words.length === 0) return;
  const at = (item: { measure: number; tick: number }) => (starts[item.measure] ?? 0) + item.tick;
  const onsets = part.notes.map((note, id) => (starts[note.measure] ?? 0) + (part.ticks[id] ?? 0));
  for (const word of words) {
    const from = at(word);
    let to = starts[word.measure + 2] ?? Number.POSITIVE_INFINITY;
    for (const other of words) {
      if (other.staff === word.staff && at(other) > from) to = Math.min(to, at(other));
    }
    const governed = part.notes.filter((note, id) => {
      const onset = onsets[id] as number;
      return note.staff === word.staff && onset >= from && onset < to;
    });
    const first = governed.reduce((least, note) => Math.min(least, onsets[note.id] as number), to);
    for (const rest of part.rests) {
      if (rest.staff === word.staff && at(rest) > first) to = Math.min(to, at(rest));
    }
    for (const note of governed)
      if ((onsets[note.id] as number) < to) note.handWord = word.hand as 'right' | 'left';
  }
}
