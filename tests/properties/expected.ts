import type { DigitMark, Marks } from '../../packages/core/src/musicxml/edit.js';
import type { ReadResult } from '../../packages/core/src/musicxml/read.js';
import type { XmlElement } from '../../packages/core/src/musicxml/tree.js';

/** What a reader may do to white space in words. */
const squeeze = (text: string) => text.replaceAll(/\s+/g, '');

/** verovio looks at the first `<notations>` of a note that is not hidden, and at no other. */
function seen(note: XmlElement): XmlElement[] {
  return note
    .all('notations')
    .filter((notations) => notations.attribute('print-object') !== 'no')
    .slice(0, 1);
}

function fingerings(notations: readonly XmlElement[]): XmlElement[] {
  return notations.flatMap((one) => one.all('technical')).flatMap((technical) => technical.all('fingering'));
}

function wanted(mark: DigitMark): [finger: number, role: string][] {
  const list: [number, string][] = [[mark.finger, '']];
  if (mark.substitution !== undefined) list.push([mark.substitution, 'substitution']);
  if (mark.alternate !== undefined) list.push([mark.alternate, 'alternate']);
  return list;
}

function roleOf(fingering: XmlElement): string {
  return ['substitution', 'alternate'].find((role) => fingering.attribute(role) === 'yes') ?? '';
}

/** Digits in the form of `OutsideView.digits` after marking, told from those before. */
export function expectedDigits(before: readonly string[], source: ReadResult, marks: Marks): string[] {
  const digits = [...before];
  for (const mark of marks.digits) {
    const note = source.elements[mark.part]?.[mark.note] as XmlElement;
    const pitch = note.child('pitch');
    const name = `${pitch?.textOf('step')?.toLowerCase()} ${pitch?.textOf('octave')}`;
    const theirs = fingerings(note.all('notations'));
    if (marks.replaceDigits) {
      for (const fingering of fingerings(seen(note)))
        digits.splice(digits.indexOf(`${name} ${squeeze(fingering.text)}`), 1);
    }
    // Ours stand outside an editorial level, where verovio does not look.
    if (seen(note)[0]?.child('level') !== undefined) continue;
    for (const [finger, role] of wanted(mark)) {
      const there = theirs.some((one) => one.text.trim() === String(finger) && roleOf(one) === role);
      if (marks.replaceDigits || !there) digits.push(`${name} ${finger}`);
    }
  }
  return digits.sort();
}

export function expectedWords(before: readonly string[], marks: Marks): string[] {
  const any = marks.digits.length + marks.cues.length > 0;
  const legend = marks.legend !== undefined && any ? [squeeze(marks.legend)] : [];
  return [...before, ...marks.cues.map((cue) => squeeze(cue.text)), ...legend].sort();
}
