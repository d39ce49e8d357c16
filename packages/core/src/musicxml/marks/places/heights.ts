import type { Score } from '../../../score/model.js';
import type { XmlElement } from '../../xml/tree.js';
import type { CueMark, DigitMark, Marks } from '../edit.js';
import { Extents } from './extents.js';
import { LINE, type Placed, rowsOf } from './rows.js';
import { Spacing } from './spacing.js';
import { GAP, widthOf } from './widths.js';

/**
 * Heights of rows in tenths, above the top line of the staff and below it: five spaces off the staff, where programs that
 * take heights literally seldom find a note. verovio sets texts of one value level, in each system, and at no given height; so
 * rows that follow each other differ.
 */
const HEIGHTS = { above: 50, below: -90 };
const DIFFERENT_ROWS = 20;

/** What stands outside cues, or is moved out of their way before a row is lifted. */
const IN_THE_WAY = new Set(['direction', 'harmony', 'figured-bass']);

/** What texts stand beside. */
interface Source {
  readonly score: Score;
  readonly elements: readonly (readonly XmlElement[])[];
  readonly measureElements: readonly (readonly XmlElement[])[];
}

/**
 * `default-y` of the cues in rows, by cue.
 *
 * @param end by part, the first measure with words that stand outside cues
 * @param blanks by cue, empty lines towards the staff
 */
export function rowHeights(
  source: Source,
  { cues, digits, isCrowded = false }: Pick<Marks, 'cues' | 'digits' | 'isCrowded'>,
  end: readonly number[],
  blanks: readonly number[],
): ReadonlyMap<number, string> {
  const heights = new Map<number, string>();
  if (cues.length < 2) return heights;
  const spacing = new Spacing(source.score, source.elements, isCrowded);
  const busy = source.measureElements.map((measures, part) => new BusyMeasures(measures, end[part]!));
  for (const side of bySide(source.score, cues)) {
    const { part, placement } = cues[side[0]!]!;
    const texts = placedTexts(source, cues, side, digits, busy[part]!, spacing, blanks);
    for (const [nth, row] of rowsOf(texts).entries()) {
      const step = nth % DIFFERENT_ROWS;
      const height = String(HEIGHTS[placement] + (placement === 'above' ? step : -step));
      for (const { cue } of row) heights.set(cue, height);
    }
  }
  return heights;
}

/** The cues on either side of every staff. */
function bySide({ parts }: Score, cues: readonly CueMark[]): Iterable<readonly number[]> {
  const sides = new Map<string, number[]>();
  for (const [cue, { part, note, placement }] of cues.entries()) {
    const own = parts[part]?.notes[note];
    if (own === undefined) continue;
    const name = `${part} ${own.staff} ${placement}`;
    const side = sides.get(name);
    if (side === undefined) sides.set(name, [cue]);
    else side.push(cue);
  }
  return sides.values();
}

/** The cues of one side where they stand, from left to right. */
function placedTexts(
  { score, elements, measureElements }: Source,
  cues: readonly CueMark[],
  side: readonly number[],
  digits: readonly DigitMark[],
  busy: BusyMeasures,
  spacing: Spacing,
  blanks: readonly number[],
): Placed[] {
  const { part: at, note, placement } = cues[side[0]!]!;
  const part = score.parts[at]!;
  const withDigit = new Set<number>();
  for (const digit of digits)
    if (digit.part === at && digit.placement === placement) withDigit.add(digit.note);
  const staff = {
    part,
    staff: part.notes[note]!.staff,
    elements: elements[at]!,
    measures: measureElements[at]!,
  };
  const extents = new Extents(staff, placement, withDigit, spacing);
  const texts = side.map((cue): Placed => {
    const { note: id, text, inRows } = cues[cue]!;
    const own = part.notes[id]!;
    const left = spacing.placeOf(own);
    const right = left + widthOf(text);
    // What begins in a measure reaches into the next.
    const isFree = inRows === true && !busy.has(own.measure) && !busy.has(own.measure - 1);
    const lines = text.split('\n').length + blanks[cue]!;
    const rise = placement === 'above' ? LINE * (lines - 1) : 0;
    const extent = extents.between(left, right);
    const order = own.span.start;
    return { cue, left, right: right + GAP, extent, lines, rise, order, isFree };
  });
  return texts.sort((a, b) => a.left - b.left);
}

/** Measures of a part in which something of the score's may be in the way of a row. */
class BusyMeasures {
  readonly #busy = new Map<number, boolean>();

  constructor(
    private readonly measures: readonly XmlElement[],
    private readonly end: number,
  ) {}

  has(measure: number): boolean {
    let busy = this.#busy.get(measure);
    if (busy === undefined) {
      busy = measure >= this.end || (this.measures[measure]?.children.some(isInTheWay) ?? false);
      this.#busy.set(measure, busy);
    }
    return busy;
  }
}

function isInTheWay(element: XmlElement): boolean {
  if (element.name === 'barline') return element.child('ending') !== undefined;
  return IN_THE_WAY.has(element.name);
}
