import type { Hand } from '../../score/model.js';
import type { Accidental } from '../engraving/accidentals.js';
import type { Beam } from '../engraving/beams.js';
import type { TupletEnd } from '../engraving/tuplets.js';
import type { Written } from '../rhythm/bars.js';
import { octaveOf, type Pitch, stepOf } from '../theory/pitch.js';
import { leaf, type Tree } from './tree.js';

const LETTERS = 'CDEFGAB';

/** What a note is printed with besides its value. */
export interface Dress {
  readonly hand: Hand;
  readonly staff: number;
  readonly accidentals: readonly (Accidental | undefined)[];
  readonly beams: readonly Beam[];
  readonly tuplet: TupletEnd;
}

/** Writes a chord, note by note, or a rest. */
export function writeNotes(measure: Tree, written: Written, dress: Dress): void {
  const pitches = written.step?.pitches ?? [];
  if (pitches.length === 0) writeOne(measure, written, 0, dress);
  for (let nth = 0; nth < pitches.length; nth++) writeOne(measure, written, nth, dress);
}

/** A rest of the whole measure. */
export function writeMeasureRest(measure: Tree, ticks: number, staff: number): void {
  const note = measure.ele('note');
  note.ele('rest', { measure: 'yes' });
  leaf(note, 'duration', ticks);
  leaf(note, 'voice', staff);
  leaf(note, 'staff', staff);
}

/** The elements of `<note>` in the schema's order. */
function writeOne(measure: Tree, written: Written, nth: number, dress: Dress): void {
  const { value, tied } = written;
  const note = measure.ele('note');
  if (nth > 0) note.ele('chord');
  const pitch = written.step?.pitches[nth];
  if (pitch) writePitch(note, pitch);
  else note.ele('rest');
  leaf(note, 'duration', value.ticks);
  if (tied.from) note.ele('tie', { type: 'stop' });
  if (tied.to) note.ele('tie', { type: 'start' });
  leaf(note, 'voice', dress.staff);
  leaf(note, 'type', value.type);
  if (value.dotted) note.ele('dot');
  const accidental = dress.accidentals[nth];
  if (accidental) leaf(note, 'accidental', accidental);
  if (value.triplet) {
    const modification = note.ele('time-modification');
    leaf(modification, 'actual-notes', 3);
    leaf(modification, 'normal-notes', 2);
  }
  leaf(note, 'staff', dress.staff);
  if (nth === 0) {
    dress.beams.forEach((beam, level) => {
      note.ele('beam', { number: String(level + 1) }).txt(beam);
    });
  }
  writeNotations(note, written, nth, dress);
}

function writePitch(note: Tree, { diatonic, alter }: Pitch): void {
  const pitch = note.ele('pitch');
  leaf(pitch, 'step', LETTERS[stepOf({ diatonic, alter })]!);
  if (alter !== 0) leaf(pitch, 'alter', alter);
  leaf(pitch, 'octave', octaveOf(diatonic));
}

function writeNotations(note: Tree, written: Written, nth: number, { hand, tuplet }: Dress): void {
  const { tied, step, accent, fermata } = written;
  const digit = tied.from ? undefined : step?.digits?.[nth];
  const isFirst = nth === 0;
  const hasTuplet = isFirst && (tuplet.start || tuplet.stop);
  const isMarked = isFirst && (accent || fermata);
  if (!tied.from && !tied.to && digit === undefined && !hasTuplet && !isMarked) return;
  const notations = note.ele('notations');
  if (tied.from) notations.ele('tied', { type: 'stop' });
  if (tied.to) notations.ele('tied', { type: 'start' });
  if (isFirst && tuplet.start) notations.ele('tuplet', { type: 'start' });
  if (isFirst && tuplet.stop) notations.ele('tuplet', { type: 'stop' });
  if (digit !== undefined) {
    const placement = hand === 'right' ? 'above' : 'below';
    notations.ele('technical').ele('fingering', { placement }).txt(String(digit));
  }
  if (isFirst && accent) notations.ele('articulations').ele('accent');
  if (isFirst && fermata) notations.ele('fermata', hand === 'left' ? { type: 'inverted' } : {});
}
