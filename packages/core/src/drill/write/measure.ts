import { literal } from '../../musicxml/xml/references.js';
import { accidentalsOf } from '../engraving/accidentals.js';
import { beamsOf } from '../engraving/beams.js';
import type { StaffView } from '../engraving/clefs.js';
import type { SheetMeasure, StaffMeasure } from '../engraving/engrave.js';
import { tupletsOf } from '../engraving/tuplets.js';
import type { Metre } from '../rhythm/metre.js';
import { beatUnit } from '../rhythm/metre.js';
import { QUARTER } from '../rhythm/values.js';
import { writeMeasureRest, writeNotes } from './note.js';
import { leaf, type Tree } from './tree.js';

/** What every measure of a sheet is written with. */
export interface Setting {
  readonly metre: Metre;
  /** Beats of the metre a minute. */
  readonly tempo: number;
  /** Over the first measure, in lines; absent where a legend will hold it. */
  readonly caution?: string;
  /** How each staff is written so far, top first; changed as measures are written. */
  readonly views: StaffView[];
}

/** Sizes in points. */
const HEADING = { 'font-size': '12', 'font-style': 'normal', 'font-weight': 'bold' };
const REMARK = { 'font-size': '8', 'font-style': 'italic' };
const CAUTION = { 'font-size': '8', 'font-style': 'normal', 'font-weight': 'normal' };

/** Behind a remark, so that programs set no cue close to it. */
const BLANK = '\u00a0';

const CLEF_LINES = { G: 2, F: 4 } as const;

export function writeMeasure(part: Tree, own: SheetMeasure, index: number, setting: Setting): void {
  const measure = part.ele('measure', { number: String(index + 1) });
  if (own.break !== 'none') {
    measure.ele('print', own.break === 'page' ? { 'new-page': 'yes' } : { 'new-system': 'yes' });
  }
  writeAttributes(measure, own, index, setting);
  // Programs stack what stands above a note from the staff upwards in this order.
  if (own.remark !== undefined) writeWords(measure, own.remark, REMARK);
  if (own.heading !== undefined) writeWords(measure, own.heading, HEADING, setting);
  if (index === 0) {
    writeTempo(measure, setting);
    if (setting.caution !== undefined) writeWords(measure, setting.caution, CAUTION, setting);
  }
  own.staves.forEach((staff, nth) => {
    if (nth > 0) leaf(measure.ele('backup'), 'duration', setting.metre.measure);
    writeStaff(measure, staff, nth, own.fifths, setting);
  });
  if (own.barline) {
    const barline = measure.ele('barline', { location: 'right' });
    leaf(barline, 'bar-style', own.barline === 'final' ? 'light-heavy' : 'light-light');
  }
}

/** What begins with the measure: a signature, and at the sheet's start metre and clefs. */
function writeAttributes(
  measure: Tree,
  { key, staves }: SheetMeasure,
  index: number,
  { metre, views }: Setting,
): void {
  if (index > 0 && !key) return;
  const attributes = measure.ele('attributes');
  if (index === 0) leaf(attributes, 'divisions', QUARTER);
  if (key) {
    const element = attributes.ele('key');
    leaf(element, 'fifths', key.fifths);
    if (key.mode) leaf(element, 'mode', key.mode);
  }
  if (index === 0) {
    const time = attributes.ele('time');
    leaf(time, 'beats', metre.beats);
    leaf(time, 'beat-type', metre.unit);
    if (staves.length > 1) leaf(attributes, 'staves', staves.length);
    staves.forEach(({ changes }, nth) => {
      const first = changes.find(({ at }) => at === 0);
      if (first) views[nth] = { ...views[nth]!, clef: first.clef };
      writeClef(attributes, views[nth]!.clef, numberOf(nth, views));
    });
  }
}

function writeClef(attributes: Tree, sign: 'G' | 'F', staff: number | undefined): void {
  const clef = attributes.ele('clef', staff === undefined ? {} : { number: String(staff) });
  leaf(clef, 'sign', sign);
  leaf(clef, 'line', CLEF_LINES[sign]);
}

/**
 * A direction for each line, the lowest first: some programs run the lines of one together.
 *
 * @param setting where they are to stand outside all cues, and need not keep them off
 */
function writeWords(
  measure: Tree,
  text: string,
  font: Readonly<Record<string, string>>,
  setting?: Setting,
): void {
  for (const line of text.split('\n').reverse()) {
    const direction = measure.ele('direction', { placement: 'above' });
    direction
      .ele('direction-type')
      .ele('words', font)
      .txt(literal(setting ? line : line + BLANK));
    leaf(direction, 'staff', 1);
    if (setting) writeSound(direction, setting);
  }
}

function writeTempo(measure: Tree, setting: Setting): void {
  const { metre, tempo } = setting;
  const direction = measure.ele('direction', { placement: 'above' });
  const metronome = direction.ele('direction-type').ele('metronome');
  const { type, dotted } = beatUnit(metre);
  leaf(metronome, 'beat-unit', type);
  if (dotted) metronome.ele('beat-unit-dot');
  leaf(metronome, 'per-minute', tempo);
  leaf(direction, 'staff', 1);
  writeSound(direction, setting);
}

/** The tempo goes on: words that say so are tempo marks, which verovio sets outside all cues. */
function writeSound(direction: Tree, { metre, tempo }: Setting): void {
  direction.ele('sound', { tempo: String((tempo * metre.beat) / QUARTER) });
}

/** The number of a staff, where there are several. */
function numberOf(nth: number, views: readonly StaffView[]): number | undefined {
  return views.length > 1 ? nth + 1 : undefined;
}

function writeStaff(measure: Tree, staff: StaffMeasure, nth: number, fifths: number, setting: Setting): void {
  const { bar, nextClef } = staff;
  if (bar.length === 0) writeMeasureRest(measure, setting.metre.measure, nth + 1);
  else writeBar(measure, staff, nth, fifths, setting);
  if (nextClef) changeClef(measure, nextClef, nth, setting);
}

function writeBar(measure: Tree, staff: StaffMeasure, nth: number, fifths: number, setting: Setting): void {
  const { hand, bar, changes, endsOctave } = staff;
  const number = nth + 1;
  const [beams, tuplets] = [beamsOf(bar, setting.metre), tupletsOf(bar)];
  const accidentals = accidentalsOf(bar, fifths);
  const last = bar.findLastIndex(({ step }) => step);
  bar.forEach((written, at) => {
    const change = changes.find((own) => own.at === written.at);
    if (change) writeChange(measure, change, nth, setting);
    writeNotes(measure, written, {
      hand,
      staff: number,
      accidentals: accidentals[at]!,
      beams: beams[at]!,
      tuplet: tuplets[at]!,
    });
    if (endsOctave && at === last) writeOctave(measure, 'stop', number);
  });
  if (endsOctave) setting.views[nth] = { clef: setting.views[nth]!.clef, octaves: 0 };
}

/** Another clef or octave line within the measure. */
function writeChange(measure: Tree, change: StaffView, nth: number, setting: Setting): void {
  const before = setting.views[nth]!;
  if (before.octaves !== change.octaves && before.octaves !== 0) writeOctave(measure, 'stop', nth + 1);
  changeClef(measure, change.clef, nth, setting);
  if (before.octaves !== change.octaves && change.octaves !== 0) {
    writeOctave(measure, change.octaves > 0 ? 'down' : 'up', nth + 1);
  }
  setting.views[nth] = { clef: change.clef, octaves: change.octaves };
}

function changeClef(measure: Tree, clef: StaffView['clef'], nth: number, { views }: Setting): void {
  const before = views[nth]!;
  if (before.clef === clef) return;
  writeClef(measure.ele('attributes'), clef, numberOf(nth, views));
  views[nth] = { ...before, clef };
}

/** `down`: the notes are written an octave lower than they sound, under 8va. */
function writeOctave(measure: Tree, type: 'down' | 'up' | 'stop', staff: number): void {
  const direction = measure.ele('direction', { placement: type === 'up' ? 'below' : 'above' });
  direction.ele('direction-type').ele('octave-shift', { type, size: '8', number: String(staff) });
  leaf(direction, 'voice', staff);
  leaf(direction, 'staff', staff);
}
