import { type ClearedText, clearMarks } from '#core/musicxml/marks/clear/clear.js';
import type { Marks } from '#core/musicxml/marks/edit.js';
import { applyEdits } from '#core/musicxml/marks/edits.js';
import { writeMarks } from '#core/musicxml/marks/write.js';
import { type ReadResult, readScore } from '#core/musicxml/read/score.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';

export const NO_MARKS: Marks = { digits: [], cues: [], replaceDigits: false };

export function read(text: string): ReadResult {
  return readScore(parseTree(text, DEFAULT_LIMITS), text, { limits: DEFAULT_LIMITS });
}

/** Reads and marks a text that has no marks of ours yet. */
export function mark(text: string, marks: Partial<Marks>): string {
  return applyEdits(text, writeMarks(text, read(text), { ...NO_MARKS, ...marks }));
}

export function clear(text: string): ClearedText {
  return clearMarks(text, parseTree(text, DEFAULT_LIMITS));
}
