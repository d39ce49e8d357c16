import { roughPace, type SliceView } from '../../view/view.js';
import type { Figure } from './figure.js';
import { groupsOf, NONE, Numbers } from './numbers.js';

/**
 * mm equivalents of a slice whose fingers are unlike those of its like in other bars. Our choice: works held out agree best
 * with 6 to 12, and the passages of `tests/practice` pass most often with 12 to 15.
 */
const PRICE = 12;
/** Slices of a bar that the eye knows again. */
const LEAST_SLICES = 3;

/** Apart from the number of any key, struck or held. */
const PACES = 1024;

/** Measures of the same keys in the same rhythm are fingered alike, whatever stands around them (common practice). */
export function barFigures(views: readonly SliceView[]): Figure[] {
  const starts = startsOfMeasures(views);
  const figures: Figure[] = [];
  for (const alike of groupsOf(barNumbers(views, starts))) {
    if (alike.length < 2) continue;
    const length = starts[alike[0]! + 1]! - starts[alike[0]!]!;
    for (let place = 0; place < length; place++) {
      const slices: number[] = [];
      for (const nth of alike) slices.push(starts[nth]! + place);
      figures.push({ slices, before: place, after: length - 1 - place, price: PRICE });
    }
  }
  return figures;
}

/** The slices with which measures begin, and the end of the last one. */
function startsOfMeasures(views: readonly SliceView[]): readonly number[] {
  const starts: number[] = [];
  for (let at = 0; at < views.length; at++)
    if (views[at]!.slice.measure !== views[at - 1]?.slice.measure) starts.push(at);
  starts.push(views.length);
  return starts;
}

/** By measure: a number for its keys, struck or held, and how fast they follow each other. */
function barNumbers(views: readonly SliceView[], starts: readonly number[]): readonly number[] {
  const numbers = new Numbers();
  const bars: number[] = [];
  for (let nth = 0; nth + 1 < starts.length; nth++) {
    const [start, end] = [starts[nth]!, starts[nth + 1]!];
    let bar = NONE;
    if (end - start >= LEAST_SLICES) {
      for (let at = start; at < end; at++) {
        const { keys, struck, pace } = views[at]!;
        bar = numbers.ofTwo(bar, PACES + (at > start ? roughPace(pace) : 0));
        for (let key = 0; key < keys.length; key++)
          bar = numbers.ofTwo(bar, keys[key]! * 2 + (struck[key] ? 1 : 0));
      }
    }
    bars.push(bar);
  }
  return bars;
}
