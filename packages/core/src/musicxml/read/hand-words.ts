import { firstNotBefore } from '../../numeric/binary-search.js';
import type { NoteDraft, PartDraft } from './drafts.js';

/** Measures that a word governs at most: its own and the next. */
const REACH = 2;

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
  words.sort((a, b) => a.staff - b.staff || at(a) - at(b));
  const notes = new Map<number, { at: number; note: NoteDraft }[]>();
  for (const note of part.notes) {
    const tick = part.ticks[note.id] ?? 0;
    listOf(notes, note.staff).push({ at: at({ measure: note.measure, tick }), note });
  }
  const rests = new Map<number, { at: number }[]>();
  for (const rest of part.rests) listOf(rests, rest.staff).push({ at: at(rest) });
  for (const list of [...notes.values(), ...rests.values()]) list.sort((a, b) => a.at - b.at);
  words.forEach((word, index) => {
    const from = at(word);
    const next = words[index + 1];
    let to = starts[word.measure + REACH] ?? Number.POSITIVE_INFINITY;
    if (next?.staff === word.staff) to = Math.min(to, at(next));
    const own = listOf(notes, word.staff);
    const first = firstNotBefore(own, from, isEarlier);
    const silent = listOf(rests, word.staff);
    // Ticks are integers: the first rest after the word's first note.
    const rest = silent[firstNotBefore(silent, (own[first]?.at ?? from) + 1, isEarlier)];
    to = Math.min(to, rest?.at ?? to);
    for (let i = first; i < own.length && (own[i]?.at ?? to) < to; i++) {
      (own[i] as { note: NoteDraft }).note.handWord = word.hand as 'right' | 'left';
    }
  });
}

function listOf<T>(lists: Map<number, T[]>, staff: number): T[] {
  const list = lists.get(staff) ?? [];
  lists.set(staff, list);
  return list;
}

function isEarlier(item: { readonly at: number }, time: number): boolean {
  return item.at < time;
}
