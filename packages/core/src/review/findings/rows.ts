import { fill } from '../../messages/fill.js';
import type { Language } from '../../options/options.js';
import type { Finger, Hand } from '../../score/model.js';
import { type BySlice, fingersAt, type Judged } from '../measure/judged.js';
import { REVIEW_WORDS } from '../words/wording.js';

/** Onsets of a figure that is written once and counted, at most; times that it comes, and onsets that this spares, at least. */
const LONGEST = 4;
const TIMES = 3;
const SPARED = 4;
/** Onsets that a row shows; of a longer one so many of its beginning and its end. */
const SHOWN = 14;
const FIRST = 9;
const LAST = 3;

/** A digit that the score has no digit for: `(3)`. */
export function bracketed(finger: Finger): string {
  return `(${finger})`;
}

/** The fingers of one onset, `null` for a key that none takes, from the lowest key up: `1-3-(5)`, in the left hand from the highest. */
export function onsetText(
  hand: Hand,
  fingers: readonly (Finger | null)[],
  printed: readonly boolean[],
): string {
  const digits = fingers.map((finger, nth) =>
    finger === null ? '–' : printed[nth] ? `${finger}` : bracketed(finger),
  );
  return (hand === 'left' ? digits.toReversed() : digits).join('-');
}

/** The fingers of the slices from `from` up to `to` in a row, notes without a digit in print in brackets. */
export function rowOf(judged: Judged, path: BySlice, from: number, to: number): readonly string[] {
  const row: string[] = [];
  for (let at = from; at < to; at++) {
    const { struck } = judged.views[at]!;
    const isStruck = (_: unknown, nth: number) => struck[nth]!;
    const fingers = fingersAt(judged, path, at).filter(isStruck);
    const printed = judged.digits[at]!.filter(isStruck).map((digit) => digit !== undefined);
    row.push(onsetText(judged.line.hand, fingers, printed));
  }
  return row;
}

/** A row with a stroke for every barline. @param measures of the onsets, alike where they are in one measure */
export function rowByMeasure(
  row: readonly string[],
  measures: readonly unknown[],
  language: Language,
): string {
  const texts: string[] = [];
  for (let start = 0; start < row.length; ) {
    let end = start + 1;
    while (end < row.length && measures[end] === measures[start]) end++;
    texts.push(joined(partsOf(row.slice(start, end), language)));
    start = end;
  }
  return texts.join(' | ');
}

/** A row to be read: figures that come again and again once, with how often; the middle of a long one left out. */
export function shortRow(row: readonly string[], language: Language): string {
  const parts = partsOf(row, language);
  const shown = parts.reduce((sum, { size }) => sum + size, 0);
  if (shown <= SHOWN) return joined(parts);
  return `${joined(parts.slice(0, FIRST))} … ${joined(parts.slice(-LAST))}`;
}

interface RowPart {
  readonly text: string;
  /** Onsets that it shows. */
  readonly size: number;
  readonly counted: boolean;
}

function partsOf(row: readonly string[], language: Language): readonly RowPart[] {
  const parts: RowPart[] = [];
  for (let at = 0; at < row.length; ) {
    const [size, times] = figureAt(row, at);
    const text = row.slice(at, at + size).join(' ');
    parts.push(
      times > 1
        ? { text: counted(text, times, language), size, counted: true }
        : { text, size: 1, counted: false },
    );
    at += size * times;
  }
  return parts;
}

/** `2-5 1-5 (4 times)` */
export function counted(text: string, count: number, language: Language): string {
  return fill(REVIEW_WORDS[language].times, { text, count });
}

/** Onsets of the figure at a place of a row, and how often it comes in a row; one onset that comes once where there is none. */
function figureAt(row: readonly string[], at: number): readonly [size: number, times: number] {
  for (let size = 1; size <= LONGEST; size++) {
    let end = at + size;
    while (end < row.length && row[end] === row[end - size]) end++;
    const times = Math.floor((end - at) / size);
    if (times >= TIMES && size * (times - 1) >= SPARED) return [size, times];
  }
  return [1, 1];
}

function joined(parts: readonly RowPart[]): string {
  let text = '';
  parts.forEach((part, nth) => {
    const between = parts[nth - 1]?.counted || (part.counted && nth > 0) ? ', ' : ' ';
    text += `${nth === 0 ? '' : between}${part.text}`;
  });
  return text;
}
