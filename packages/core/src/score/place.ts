import type { Place } from './errors.js';
import type { Note, Part } from './model.js';

/** Where a note stands in the text. */
export function notePlace(part: Part, note: Note): Place {
  const { line, column } = note;
  return { part: part.id, measure: part.measures[note.measure]?.number ?? '', line, column };
}
