import type { ReadResult } from '../read/score.js';
import type { XmlElement } from '../xml/tree.js';
import { writeCue } from './cue.js';
import { writeDigit } from './digit.js';
import type { Edit, Marks } from './edit.js';
import { signatureFor } from './format.js';
import { InsertionBuilder } from './insertions.js';
import { writeLegend } from './legend.js';

/** What writing needs of a `ReadResult`. */
export type MarkableScore = Pick<ReadResult, 'root' | 'score' | 'elements' | 'measureElements'>;

const DECLARED_ENCODING = /^\ufeff?<\?xml\s[^>]*?encoding\s*=\s*["']([^"']+)["']/;

function isUnicode(text: string): boolean {
  const [, encoding = 'UTF-8'] = DECLARED_ENCODING.exec(text.slice(0, 200)) ?? [];
  return /^utf/i.test(encoding);
}

const MOVES_TIME = new Set(['note', 'forward', 'backup']);

/** What a direction at the very start of a part stands before. */
function beginning({ measureElements, elements }: MarkableScore, part: number): XmlElement | undefined {
  const first = measureElements[part]?.[0]?.children.find((child) => MOVES_TIME.has(child.name));
  return first ?? elements[part]?.[0];
}

/**
 * The edits that print `marks` on a score that holds no marks of ours yet (see `clearMarks`). Each insertion
 * stands right behind the last character before it that is no white space, and brings its own line break and
 * indentation along: so white space, instruction and element together are ours, and nothing else is.
 *
 * @param text the text that `source` was read from
 */
export function writeMarks(text: string, source: MarkableScore, marks: Marks): Edit[] {
  const { root, score, elements } = source;
  const options = {
    builder: new InsertionBuilder(!isUnicode(text), root.prefix),
    color: signatureFor(score.version),
    replace: marks.replaceDigits,
  };
  const edits: Edit[] = [];
  if (marks.legend !== undefined && marks.legend !== '') {
    const part = [...marks.digits, ...marks.cues].reduce(
      (least, mark) => Math.min(least, mark.part),
      Infinity,
    );
    if (part !== Infinity) {
      const staves = score.parts[part]?.staves ?? 1;
      edits.push(...writeLegend(text, root, beginning(source, part), staves, marks.legend, options));
    }
  }
  for (const cue of marks.cues) {
    const element = elements[cue.part]?.[cue.note];
    // A blank cue says nothing, and makes some readers lose ties.
    if (element !== undefined && cue.text.trim() !== '') edits.push(writeCue(text, element, cue, options));
  }
  for (const digit of marks.digits) {
    const element = elements[digit.part]?.[digit.note];
    const note = score.parts[digit.part]?.notes[digit.note];
    if (element === undefined || note === undefined) continue;
    for (const edit of writeDigit(text, element, note, digit, options)) edits.push(edit);
  }
  return edits;
}
