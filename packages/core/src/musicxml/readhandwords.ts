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
  for (const word of words) {
    const hand = word.hand as 'right' | 'left';
    const from = at(word);
    let to = starts[word.measure + 2] ?? Number.POSITIVE_INFINITY;
    for (const other of words) {
      if (other.staff === word.staff && other !== word && at(other) > from) to = Math.min(to, at(other));
    }
    const notes = part.notes.filter((note) => note.staff === word.staff && at(note) >= from && at(note) < to);
    const first = notes.reduce((least, note) => Math.min(least, at(note)), Number.POSITIVE_INFINITY);
    for (const rest of part.rests) {
      if (rest.staff === word.staff && at(rest) > first) to = Math.min(to, at(rest));
    }
    for (const note of notes) if (at(note) < to) note.handWord = hand;
  }
}
