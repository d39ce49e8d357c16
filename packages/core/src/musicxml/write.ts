import type { Score } from '../score/model.js';
import type { Edit, Marks } from './edit.js';
import { signatureFor } from './marks.js';
import type { XmlElement } from './tree.js';
import { ElementBuilder } from './writebuild.js';
import { chordHead, writeCue } from './writecue.js';
import { writeDigit } from './writedigit.js';
import { prefixOf } from './writelayout.js';
import { writeLegend } from './writelegend.js';

/** A score with the `<note>` element of each of its notes. */
export interface MarkableScore {
  readonly root: XmlElement;
  readonly score: Score;
  /** `elements[part][note]` is the `<note>` of `score.parts[part].notes[note]`. */
  readonly elements: readonly (readonly XmlElement[])[];
}

const DECLARED_ENCODING = /^\ufeff?<\?xml\s[^>]*?encoding\s*=\s*["']([^"']+)["']/;

function isUnicode(text: string): boolean {
  const [, encoding = 'UTF-8'] = DECLARED_ENCODING.exec(text.slice(0, 200)) ?? [];
  return /^utf/i.test(encoding);
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
    builder: new ElementBuilder(prefixOf(text, root), !isUnicode(text)),
    color: signatureFor(score.version),
    replace: marks.replaceDigits,
  };
  const edits: Edit[] = [];
  if (marks.legend !== undefined && marks.legend !== '') {
    const part = Math.min(
      ...[...marks.digits, ...marks.cues].map((mark) => mark.part),
      score.parts.length - 1,
    );
    const first = elements[part]?.[0];
    const staves = score.parts[part]?.staves ?? 1;
    const head = first === undefined ? undefined : chordHead(first);
    edits.push(...writeLegend(text, root, head, staves, marks.legend, options));
  }
  for (const cue of marks.cues) {
    const element = elements[cue.part]?.[cue.note];
    if (element !== undefined) edits.push(writeCue(text, element, cue, options));
  }
  for (const digit of marks.digits) {
    const element = elements[digit.part]?.[digit.note];
    const note = score.parts[digit.part]?.notes[digit.note];
    if (element === undefined || note === undefined) continue;
    edits.push(...writeDigit(text, element, note, digit, options));
  }
  return edits;
}
