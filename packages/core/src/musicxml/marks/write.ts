import type { ReadResult } from '../read/score.js';
import type { XmlElement } from '../xml/tree.js';
import { type Direction, type DirectionOptions, writeBlank, writeCue } from './cue.js';
import { DashesWriter } from './dashes.js';
import { bareNote, writeDigit } from './digit.js';
import type { CueMark, Edit, Marks } from './edit.js';
import { fontsBefore } from './fonts.js';
import { InsertionBuilder } from './insertions.js';
import { legendPlace, writeLegend } from './legend.js';
import { rowHeights } from './places/heights.js';
import { notesAtSlurs, type Slurred } from './places/slurs.js';
import { cuesAtTempoMarks } from './places/tempo-marks.js';
import { shareOut, type Written } from './record/write.js';

/** What writing needs of a `ReadResult`. */
export type MarkableScore = Pick<ReadResult, 'root' | 'score' | 'elements' | 'measureElements'>;

const DECLARED_ENCODING = /^\ufeff?<\?xml\s[^>]*?encoding\s*=\s*["']([^"']+)["']/;

export function isUnicode(text: string): boolean {
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
  const builder = new InsertionBuilder(!isUnicode(text), root.prefix);
  const options: DirectionOptions = { builder, fonts: fontsBefore(root) };
  const directions = wordsOf(text, source, marks, options);
  const digits = new Map<XmlElement, Written>();
  const edits: Edit[] = [];
  for (const digit of marks.digits) {
    const element = elements[digit.part]?.[digit.note];
    const note = score.parts[digit.part]?.notes[digit.note];
    if (element === undefined || note === undefined) continue;
    const replace = marks.replaceDigits;
    const { edits: own, text: written, kept } = writeDigit(text, element, note, digit, { builder, replace });
    for (const edit of own) edits.push(edit);
    if (written !== undefined) digits.set(element, { written, kept });
  }
  for (const { part, note } of marks.bared ?? []) {
    const element = elements[part]?.[note];
    if (element === undefined) continue;
    const { edits: own, kept } = bareNote(text, element);
    for (const edit of own) edits.push(edit);
    if (kept.length > 0) digits.set(element, { kept });
  }
  return [...recorded(text, source, directions, digits, options), ...edits];
}

/** Empty lines that keep a cue off a tempo mark, which is as high as two, and off a slur, which programs let touch the feet of letters. */
const TEMPO_LINES = 2;
const SLUR_LINES = 1;

/** The legend and the cues. */
function wordsOf(text: string, source: MarkableScore, marks: Marks, options: DirectionOptions): Direction[] {
  const directions: Direction[] = [];
  const blanks = blanksOf(source, marks);
  const heights = heightsOf(source, marks, blanks);
  const dashes = marks.cues.some(hasDashes) ? new DashesWriter(source.root) : undefined;
  for (const [at, cue] of marks.cues.entries()) {
    const elements = source.elements[cue.part];
    const element = elements?.[cue.note];
    // A blank cue says nothing, and makes some readers lose ties.
    if (element === undefined || cue.text.trim() === '') continue;
    const part = source.score.parts[cue.part]!;
    const way = dashes?.wayOf(cue, part, elements!);
    const mark = { ...cue, height: heights.get(at) };
    const words = writeCue(text, element, mark, options, blanks[at]!, way?.record);
    for (const direction of words) directions.push(direction);
    if (way && words.length > 0)
      for (const direction of dashes!.write(text, way, cue, options)) directions.push(direction);
  }
  // Behind the cues, so that these stand next to the staff.
  const isMarked = [marks.digits, marks.bared ?? [], marks.cues].some(({ length }) => length > 0);
  if (marks.legend !== undefined && isMarked)
    for (const direction of writeLegend(text, source, marks.legend, options)) directions.push(direction);
  return directions;
}

/** By cue, its empty lines towards the staff. */
function blanksOf(source: MarkableScore, marks: Marks): readonly number[] {
  const slurred = new Map<number, Slurred>();
  const atTempoMarks = cuesAtTempoMarks(source, marks);
  return marks.cues.map((cue) => {
    const elements = source.elements[cue.part];
    if (elements === undefined) return 0;
    const slurs = slurred.get(cue.part) ?? notesAtSlurs(source.score.parts[cue.part]!.notes, elements);
    slurred.set(cue.part, slurs);
    if (atTempoMarks.has(cue)) return TEMPO_LINES;
    return slurs[cue.placement].has(cue.note) ? SLUR_LINES : 0;
  });
}

/** By cue. */
function heightsOf(
  source: MarkableScore,
  marks: Marks,
  blanks: readonly number[],
): ReadonlyMap<number, string> {
  const place = marks.legend === undefined ? undefined : legendPlace(source.score);
  const ends = source.measureElements.map(({ length }, part) =>
    part === place?.part ? place.measure : length,
  );
  return rowHeights(source, marks, ends, blanks);
}

function hasDashes({ dashesTo }: CueMark): boolean {
  return dashesTo !== undefined;
}

/** The directions' edits, with the records of the digits in them; a part that has none gets a blank one before its first digit. */
function recorded(
  text: string,
  source: MarkableScore,
  directions: readonly Direction[],
  digits: ReadonlyMap<XmlElement, Written>,
  options: DirectionOptions,
): Edit[] {
  const { root } = source;
  const all = [...directions];
  let shared = shareOut(root, digits, carriersIn(all));
  if (shared.bare.length > 0) {
    for (const note of shared.bare) all.push(writeBlank(text, note, options));
    shared = shareOut(root, digits, carriersIn(all));
  }
  const done = new Set<XmlElement>();
  return all.map(({ head, token, edit }) => {
    if (token === '') return edit;
    const record = done.has(head) ? '' : (shared.records.get(head) ?? '');
    done.add(head);
    return record === ''
      ? edit
      : { ...edit, text: edit.text.replace(`,${token}"`, () => `,${token}${record}"`) };
  });
}

/** What words of ours stand before. */
function carriersIn(directions: readonly Direction[]): ReadonlySet<XmlElement> {
  const heads = new Set<XmlElement>();
  for (const { head, token } of directions) if (token !== '') heads.add(head);
  return heads;
}
