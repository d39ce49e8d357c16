import { type Cleared, clearMarks } from '../../packages/core/src/musicxml/clear.js';
import type { Marks } from '../../packages/core/src/musicxml/edit.js';
import { applyEdits } from '../../packages/core/src/musicxml/edits.js';
import { DEFAULT_LIMITS } from '../../packages/core/src/musicxml/limits.js';
import { type ReadResult, readScore } from '../../packages/core/src/musicxml/read.js';
import { parseTree } from '../../packages/core/src/musicxml/tree.js';
import { writeMarks } from '../../packages/core/src/musicxml/write.js';

export const NO_MARKS: Marks = { digits: [], cues: [], replaceDigits: false };

export function read(text: string): ReadResult {
  return readScore(parseTree(text, DEFAULT_LIMITS), text, { limits: DEFAULT_LIMITS });
}

/** Reads and marks a text that has no marks of ours yet. */
export function mark(text: string, marks: Partial<Marks>): string {
  return applyEdits(text, writeMarks(text, read(text), { ...NO_MARKS, ...marks }));
}

export function clear(text: string): Cleared {
  return clearMarks(text, parseTree(text, DEFAULT_LIMITS));
}
