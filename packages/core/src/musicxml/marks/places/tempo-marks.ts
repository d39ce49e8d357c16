import type { Score } from '../../../score/model.js';
import type { XmlElement } from '../../xml/tree.js';
import type { CueMark, Marks } from '../edit.js';
import { Spacing } from './spacing.js';
import { GAP, widthOf } from './widths.js';

/**
 * The cues above a staff that may reach a tempo mark with which the next measure begins, where that has a new time signature:
 * verovio looks for what is in the mark's way at the first note, and then draws it further left, at the signature.
 */
export function cuesAtTempoMarks(
  source: {
    readonly score: Score;
    readonly elements: readonly (readonly XmlElement[])[];
    readonly measureElements: readonly (readonly XmlElement[])[];
  },
  { cues, isCrowded = false }: Pick<Marks, 'cues' | 'isCrowded'>,
): ReadonlySet<CueMark> {
  const { score, elements, measureElements } = source;
  const reaching = new Set<CueMark>();
  let spacing: Spacing | undefined;
  for (const cue of cues) {
    if (cue.placement !== 'above') continue;
    const part = score.parts[cue.part];
    const note = part?.notes[cue.note];
    if (part === undefined || note === undefined) continue;
    const next = measureElements[cue.part]![note.measure + 1];
    if (next === undefined || !beginsAnew(next)) continue;
    spacing ??= new Spacing(score, elements, isCrowded);
    const behind = part.notes.find(({ measure, grace }) => measure > note.measure && grace < 0);
    if (behind === undefined) continue;
    if (spacing.placeOf(note) + widthOf(cue.text) + GAP > spacing.placeOf(behind)) reaching.add(cue);
  }
  return reaching;
}

/** Whether a measure has a tempo mark and a time signature before its first note. */
function beginsAnew({ children }: XmlElement): boolean {
  const first = children.findIndex(({ name }) => name === 'note');
  const before = first < 0 ? children : children.slice(0, first);
  return before.some(hasTimeSignature) && before.some(hasTempoMark);
}

function hasTimeSignature(element: XmlElement): boolean {
  return element.name === 'attributes' && element.child('time') !== undefined;
}

function hasTempoMark(element: XmlElement): boolean {
  if (element.name !== 'direction') return false;
  const isSounding = element.child('sound')?.attribute('tempo') !== undefined;
  return element
    .all('direction-type')
    .some(
      (type) => type.child('metronome') !== undefined || (isSounding && type.child('words') !== undefined),
    );
}
