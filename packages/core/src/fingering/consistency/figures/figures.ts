import type { SliceView } from '../../view/view.js';
import { barFigures } from './bar-figures.js';
import type { Figure } from './figure.js';
import { courseOf, FigureContext } from './figure-context.js';
import { openChordFigures } from './open-chord-figures.js';
import { returnFigures } from './return-figures.js';
import { runFigures } from './run-figures.js';

/** What a slice that deviates from the consensus pays, mm equivalents. */
interface Prices {
  /** Where the file prints no digit in any of these places. */
  readonly free: number;
  /** Where it prints one, since an editor who prints one means the others too (common practice). */
  readonly given: number;
}

/**
 * A slice's figure is the slice with some slices before and after it. Where the same figure occurs elsewhere, a slice that
 * deviates from the consensus pays, at every width at which it deviates, so that the price grows with the amount of music
 * repeated around it. Chosen as the numbers with which works held out of the fit agree best.
 */
const FIGURES: readonly (Prices & { readonly reach: number })[] = [
  { reach: 1, free: 3, given: 12 },
  { reach: 2, free: 8, given: 25 },
  { reach: 4, free: 6, given: 10 },
];

/** The same for a chord by itself, in any octave: of two keys, and of more, which the eye knows again. */
const PAIR: Prices = { free: 8, given: 16 };
const CHORD: Prices = { free: 28, given: 36 };

/** Two keys struck again at once: no finger has a reason to change (common practice). Works held out agree as well. */
const RESTRUCK: Prices = { free: 10, given: 10 };

/**
 * The same keys after the same slices, or before the same: bars that recur are fingered alike up to their last note,
 * whatever follows, and from their first note on, whatever came before (common practice). Works held out agree a little less
 * with this price, equal bars come out equal.
 */
const ON_THE_SAME_KEYS: Prices = { free: 15, given: 15 };

/**
 * The same figure on other white keys, with black keys in the same places: a sequence keeps its fingers where seconds and
 * thirds change their size (common practice). Works held out agree better with it, and with every second digit given better at
 * three times the price.
 */
const IN_SEQUENCE: Prices = { free: 10, given: 30 };

/** Slices on either side of the widest figures. */
const WIDEST = 4;

/**
 * The figures that recur: with the same intervals, key colours, rhythm and held keys, on a key repeated fast at the same place
 * in its group.
 */
export function figuresOf(views: readonly SliceView[]): readonly Figure[] {
  const course = courseOf(views);
  const context = new FigureContext(views, course, 'semitones', WIDEST);
  const figures: Figure[] = [];
  add(figures, views, context.chords(2, 2), 0, 0, PAIR);
  add(figures, views, context.chords(3), 0, 0, CHORD);
  for (const { reach, ...prices } of FIGURES)
    add(figures, views, context.around(reach), reach, reach, prices);
  const sequences = [...new FigureContext(views, course, 'white keys', WIDEST).around(WIDEST)];
  add(figures, views, sequences, WIDEST, WIDEST, IN_SEQUENCE);
  const [led, leading] = [[...context.led(WIDEST)], [...context.leading(WIDEST)]];
  add(figures, views, led, WIDEST, 0, ON_THE_SAME_KEYS);
  add(figures, views, leading, 0, WIDEST, ON_THE_SAME_KEYS);
  add(figures, views, restruck(views), 0, 0, RESTRUCK);
  return [
    ...figures,
    ...barFigures(views),
    ...openChordFigures(views),
    ...runFigures(views),
    ...returnFigures(views, sequences, [...led, ...leading]),
  ];
}

/** Adds the groups of slices that recur. */
function add(
  figures: Figure[],
  views: readonly SliceView[],
  groups: Iterable<readonly number[]>,
  before: number,
  after: number,
  prices: Prices,
): void {
  for (const slices of groups) {
    if (slices.length < 2) continue;
    figures.push({ slices, before, after, price: anyGiven(views, slices) ? prices.given : prices.free });
  }
}

/** Two keys together that are struck several times in a row. */
function restruck(views: readonly SliceView[]): readonly (readonly number[])[] {
  const rows: number[][] = [];
  for (let at = 1; at < views.length; at++) {
    if (!isStruckAgain(views[at - 1]!, views[at]!)) continue;
    const row = rows.at(-1);
    if (row?.at(-1) === at - 1) row.push(at);
    else rows.push([at - 1, at]);
  }
  return rows;
}

function isStruckAgain(before: SliceView, view: SliceView): boolean {
  return (
    view.keys.length === 2 &&
    before.keys.length === 2 &&
    !view.fresh &&
    view.low === before.low &&
    view.high === before.high
  );
}

function anyGiven(views: readonly SliceView[], slices: readonly number[]): boolean {
  for (const at of slices) if (views[at]!.given) return true;
  return false;
}
