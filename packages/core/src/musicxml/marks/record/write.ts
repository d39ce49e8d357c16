import type { XmlElement } from '../../xml/tree.js';
import { byMoment, firstFrom, type Head, headsOf, type Moment, type PartHeads, pitchClass } from './heads.js';
import { type HeadRecord, writeHeads } from './token.js';

/** What a digit of ours did to a note head. */
export type Written = Pick<HeadRecord, 'written' | 'kept'>;

/**
 * The records of all digits, shared out over the words that can carry them: each records the heads from its own
 * moment up to that of the next, the first of a part those before it as well.
 *
 * @param digits by note
 * @param carriers notes before which words of ours stand, in the order of the score
 * @returns by carrier what follows the name of its token; a note of each part in which no carrier stands
 */
export function shareOut(
  root: XmlElement,
  digits: ReadonlyMap<XmlElement, Written>,
  carriers: ReadonlySet<XmlElement>,
): { readonly records: ReadonlyMap<XmlElement, string>; readonly bare: readonly XmlElement[] } {
  const records = new Map<XmlElement, string>();
  const bare: XmlElement[] = [];
  for (const part of headsOf(root, carriers)) {
    const marked = part.heads.find(({ element }) => digits.has(element));
    if (marked === undefined) continue;
    if (part.moments.size === 0) bare.push(marked.element);
    else shareOutPart(part, digits, records);
  }
  return { records, bare };
}

function shareOutPart(
  { heads, moments }: PartHeads,
  digits: ReadonlyMap<XmlElement, Written>,
  records: Map<XmlElement, string>,
): void {
  let all = 0;
  for (const { element } of heads) if (digits.has(element)) all++;
  const places = [...moments].sort(([, a], [, b]) => byMoment(a, b));
  for (let at = 0; at < places.length; at++) {
    const [element, moment] = places[at]!;
    const last = places[at - 1]?.[1];
    // Words at one moment share what they record, so the first of them records it all.
    if (last !== undefined && byMoment(last, moment) === 0) continue;
    const from = firstFrom(heads, moment);
    const to = nextPlace(places, at, moment, heads);
    const early = last === undefined ? recordsOf(heads, 0, from, digits) : [];
    records.set(element, writeHeads(all, early, recordsOf(heads, from, to, digits)));
  }
}

/** What is recorded of the heads from one up to another. */
function recordsOf(
  heads: readonly Head[],
  from: number,
  to: number,
  digits: ReadonlyMap<XmlElement, Written>,
): HeadRecord[] {
  const records: HeadRecord[] = [];
  for (let at = from; at < to; at++) records.push(recordOf(heads[at]!, digits));
  return records;
}

function nextPlace(
  places: readonly (readonly [XmlElement, Moment])[],
  at: number,
  moment: Moment,
  heads: readonly Head[],
): number {
  for (let next = at + 1; next < places.length; next++) {
    const other = places[next]?.[1] as Moment;
    if (byMoment(moment, other) < 0) return firstFrom(heads, other);
  }
  return heads.length;
}

function recordOf(head: Head, digits: ReadonlyMap<XmlElement, Written>): HeadRecord {
  return { pitch: pitchClass(head), ...digits.get(head.element) };
}
