import type { Marks } from '#core/musicxml/marks/edit.js';
import type { ReadResult } from '#core/musicxml/read/score.js';
import type { XmlElement } from '#core/musicxml/xml/tree.js';
import { subtract, toNumber } from '#core/numeric/fraction.js';
import type { Part } from '#core/score/model.js';

/** What a reader may do to white space in words. */
const squeeze = (text: string) => text.replaceAll(/\s+/g, '');

const linesOf = (text: string) => text.split('\n').filter((line) => line.trim() !== '');

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

const isPlain = (one: XmlElement) =>
  one.attribute('substitution') !== 'yes' && one.attribute('alternate') !== 'yes';

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
    const { finger, substitution } = mark;
    const there =
      theirs.some((one) => isPlain(one) && one.text.trim() === String(finger)) &&
      (substitution === undefined ||
        theirs.find((one) => one.attribute('substitution') === 'yes')?.text.trim() === String(substitution));
    const text = substitution === undefined ? `${finger}` : `${finger}-${substitution}`;
    if (marks.replaceDigits || !there) digits.push(`${name} ${text}`);
  }
  return digits.sort();
}

/** Words in the form of `OutsideView.words` after marking: each cue at the time and staff of its own note. */
export function expectedWords(before: readonly string[], { score }: ReadResult, marks: Marks): string[] {
  const words = [...before];
  const stavesBefore = (part: number) =>
    score.parts.slice(0, part).reduce((sum, { staves }) => sum + staves, 0);
  for (const cue of marks.cues) {
    if (cue.text.trim() === '') continue;
    const part = score.parts[cue.part];
    const note = part?.notes[cue.note];
    const measure = part?.measures[note?.measure ?? -1];
    if (note === undefined || measure === undefined) throw new Error('a cue without its note');
    const beat = toNumber(subtract(note.onset, measure.start)) + 1;
    const staff = stavesBefore(cue.part) + note.staff;
    words.push(`${squeeze(cue.text)} @${measure.number}:${beat.toFixed(4)} ${staff}`);
  }
  if (marks.legend !== undefined && marks.digits.length + marks.cues.length > 0) {
    const at = score.parts.findLastIndex(({ notes }) => notes.length > 0);
    const part = score.parts[at]!;
    const place = ` @${part.measures[lastOfSixOnsets(part)]!.number}:1.0000 ${stavesBefore(at) + part.staves}`;
    for (const line of linesOf(marks.legend)) words.push(squeeze(line) + place);
  }
  return words.sort();
}

/** The last measure from which on a part has six onsets, else the first. */
function lastOfSixOnsets({ notes, measures }: Part): number {
  const onsets = (from: number): number =>
    new Set(notes.filter(({ measure }) => measure >= from).map(({ onset }) => toNumber(onset))).size;
  return Math.max(
    0,
    measures.findLastIndex(({ index }) => onsets(index) >= 6),
  );
}
