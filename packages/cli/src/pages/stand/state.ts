import type { Finger, NoteDigit } from '@handline/core';

/** Digits that the user has set, by the id of the note head. */
export type Digits = ReadonlyMap<string, Finger>;

/** The user's digits, with what they were and what was taken back. */
export interface History {
  readonly past: readonly Digits[];
  readonly present: Digits;
  readonly future: readonly Digits[];
}

export const NO_DIGITS: History = { past: [], present: new Map(), future: [] };

/** The same finger on some note heads, those of one key; unchanged where they have it. */
export function setFinger(history: History, heads: readonly string[], finger: Finger): History {
  if (heads.every((head) => history.present.get(head) === finger)) return history;
  const digits = new Map(history.present);
  for (const head of heads) digits.set(head, finger);
  return followedBy(history, digits);
}

/** The note heads without digits of the user's; unchanged where they have none. */
export function giveBack(history: History, heads: readonly string[]): History {
  if (!heads.some((head) => history.present.has(head))) return history;
  const digits = new Map(history.present);
  for (const head of heads) digits.delete(head);
  return followedBy(history, digits);
}

/** Unchanged where there is nothing to take back. */
export function undo(history: History): History {
  const { past, present, future } = history;
  const before = past.at(-1);
  if (!before) return history;
  return { past: past.slice(0, -1), present: before, future: [present, ...future] };
}

/** Unchanged where nothing was taken back. */
export function redo(history: History): History {
  const { past, present, future } = history;
  const [next, ...rest] = future;
  if (!next) return history;
  return { past: [...past, present], present: next, future: rest };
}

/** As `setDigits` takes them, in the order of the score. */
export function asList(digits: Digits, offsets: ReadonlyMap<string, number>): NoteDigit[] {
  return [...digits]
    .map(([id, finger]) => ({ offset: offsets.get(id)!, finger }))
    .sort((a, b) => a.offset - b.offset);
}

function followedBy({ past, present }: History, digits: Digits): History {
  return { past: [...past, present], present: digits, future: [] };
}
