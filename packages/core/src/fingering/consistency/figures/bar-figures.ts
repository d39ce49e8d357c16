import { roughPace, type SliceView } from '../../view/view.js';
import type { Figure } from './figure.js';

/**
 * mm equivalents of a slice whose fingers are unlike those of its like in other bars. Our choice: works held out agree best
 * with 6 to 12, and the passages of `tests/practice` pass most often with 12 to 15.
 */
const PRICE = 12;
/** Slices of a bar that the eye knows again. */
const LEAST_SLICES = 3;

/** Measures of the same keys in the same rhythm are fingered alike, whatever stands around them (common practice). */
export function barFigures(views: readonly SliceView[]): Figure[] {
  const figures: Figure[] = [];
  for (const { starts, slices } of barsAlike(views)) {
    if (starts.length < 2) continue;
    for (let nth = 0; nth < slices; nth++) {
      const places = starts.map((start) => start + nth);
      figures.push({ slices: places, before: nth, after: slices - 1 - nth, price: PRICE });
    }
  }
  return figures;
}

/** First slices of the bars with the same content. */
interface Bars {
  readonly starts: number[];
  readonly slices: number;
}

function barsAlike(views: readonly SliceView[]): Iterable<Bars> {
  const bars = new Map<string, Bars>();
  for (let start = 0, end = 0; start < views.length; start = end) {
    end = endOfMeasure(views, start);
    if (end - start < LEAST_SLICES) continue;
    const content = contentOf(views.slice(start, end));
    const alike = bars.get(content);
    if (alike) alike.starts.push(start);
    else bars.set(content, { starts: [start], slices: end - start });
  }
  return bars.values();
}

function endOfMeasure(views: readonly SliceView[], start: number): number {
  const { measure } = views[start]!.slice;
  let end = start + 1;
  while (views[end]?.slice.measure === measure) end++;
  return end;
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
