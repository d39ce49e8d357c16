import type { Finger } from '../../score/model.js';
import { behindContent } from '../xml/space.js';
import type { XmlElement } from '../xml/tree.js';
import { findSite, wrap } from './digit.js';
import type { Edit } from './edit.js';
import { InsertionBuilder } from './insertions.js';
import { startTagEnd } from './layout.js';
import { isUnicode, type MarkableScore } from './write.js';

/** A digit that the file itself is to print at a note head. */
export interface GivenDigit {
  readonly part: number;
  readonly note: number;
  readonly finger: Finger;
  /** Where a note that has no digit yet prints it. */
  readonly placement: 'above' | 'below';
}

/**
 * The edits that make `digits` the file's own, as if its editor had written them: a note's first `<fingering>` with a
 * digit says the new one, its others but alternate ones go, and a note without any gets one.
 *
 * @param text the text that `source` was read from
 */
export function giveDigits(text: string, source: MarkableScore, digits: readonly GivenDigit[]): Edit[] {
  const builder = new InsertionBuilder(!isUnicode(text), source.root.prefix);
  return digits.flatMap(({ part, note, finger, placement }) => {
    const element = source.elements[part]![note]!;
    const [first, ...others] = fingeringsOf(element);
    if (first) return [rewritten(text, first, finger), ...others.map((other) => takenOut(text, other))];
    const site = findSite(text, element, element.span.start);
    if (!site) return [];
    const fingering = { name: 'fingering', attributes: { placement }, text: `${finger}` };
    const inserted = builder.build(`${site.level} ${placement} ${finger}`, site.layout, () => ({
      instruction: '',
      elements: wrap(site.level, [fingering]),
    }));
    return [{ start: site.at, end: site.at, text: inserted }];
  });
}

/** Those with a digit, without the alternate ones. */
function fingeringsOf(note: XmlElement): XmlElement[] {
  return note.children
    .filter(({ name }) => name === 'notations')
    .flatMap(({ children }) => children.filter(({ name }) => name === 'technical'))
    .flatMap(({ children }) => children.filter(({ name }) => name === 'fingering'))
    .filter((own) => /[1-5]/.test(own.text) && own.attribute('alternate') !== 'yes');
}

function rewritten(text: string, element: XmlElement, finger: Finger): Edit {
  const { start, end } = element.span;
  return {
    start: startTagEnd(text, element),
    end: start + text.slice(start, end).lastIndexOf('</'),
    text: `${finger}`,
  };
}

/** With the white space before it. */
function takenOut(text: string, { span }: XmlElement): Edit {
  return { start: behindContent(text, span.start), end: span.end, text: '' };
}
