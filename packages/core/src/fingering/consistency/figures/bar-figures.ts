import { roughPace, type SliceView } from '../../view/view.js';
import type { Figure } from './figure.js';
import { groupBy, Numbers } from './numbers.js';

/**
 * mm equivalents of a slice whose fingers are unlike those of its like in other bars. Our choice: works held out agree best
 * with 6 to 12, and the passages of `tests/practice` pass most often with 12 to 15.
 */
const PRICE = 12;
/** Slices of a bar that the eye knows again. */
const LEAST_SLICES = 3;

/** Measures of the same keys in the same rhythm are fingered alike, whatever stands around them (common practice). */
export function barFigures(views: readonly SliceView[]): Figure[] {
  const numbers = new Numbers();
  const starts = startsOfMeasures(views);
  const barAt = (nth: number) => views.slice(starts[nth], starts[nth + 1]);
  const figures: Figure[] = [];
  for (const alike of groupBy(starts, (_, nth) => numberOf(barAt(nth), numbers))) {
    if (alike.length < 2) continue;
    const { length } = barAt(alike[0]!);
    for (let place = 0; place < length; place++) {
      const slices = alike.map((nth) => starts[nth]! + place);
      figures.push({ slices, before: place, after: length - 1 - place, price: PRICE });
    }
  }
  return figures;
}

function startsOfMeasures(views: readonly SliceView[]): readonly number[] {
  return [...views.keys()].filter((at) => views[at]!.slice.measure !== views[at - 1]?.slice.measure);
}

function numberOf(bar: readonly SliceView[], numbers: Numbers): number | undefined {
  return bar.length < LEAST_SLICES ? undefined : numbers.of(contentOf(bar));
}

/** Keys, struck or held, and how fast they follow each other. */
function contentOf(bar: readonly SliceView[]): string {
  return bar
    .map(({ keys, struck, pace }, nth) => {
      const chord = keys.map((key, at) => (struck[at] ? key : `${key} held`));
      return nth > 0 ? `${roughPace(pace)}: ${chord.join()}` : chord.join();
    })
    .join(' ');
}
