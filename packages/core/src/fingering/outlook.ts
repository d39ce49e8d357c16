import { BREAK, runPlaces } from './runs.js';
import { type Outlook, strideOf } from './terms/term.js';
import { wayOf } from './terms/way.js';
import type { SliceView } from './view.js';

/** Slices that the outlook takes in on either side. */
const FAR = 6;
/** Semitones that one place of the hand covers at most. */
const OCTAVE = 12;

/** What lies around every slice of a line. */
export function outlooks(views: readonly SliceView[]): readonly Outlook[] {
  const places = runPlaces(views);
  return views.map((_, at) => {
    const ahead = room(views, at, 1);
    const behind = room(views, at, -1);
    const { since, until } = places[at]!;
    return {
      ahead,
      behind,
      around: [Math.max(ahead[0], behind[0]), Math.max(ahead[1], behind[1])],
      ledBy: run(views, at, -1),
      leadsTo: run(views, at, 1),
      since,
      until,
      colours: coloursAround(views, at),
      strideIn: strideTo(views[at]!, views[at - 1]),
      strideOut: strideTo(views[at]!, views[at + 1]),
    };
  });
}

function room(views: readonly SliceView[], at: number, step: 1 | -1): [number, number] {
  const here = views[at]!;
  let { low, high } = here;
  for (let nth = 1; nth <= FAR; nth++) {
    const next = views[at + step * nth];
    if (!next || next.keys.length === 0) break;
    const later = step > 0 ? next : views[at + step * (nth - 1)]!;
    if (later.free > BREAK) break;
    const lower = Math.min(low, next.low);
    const higher = Math.max(high, next.high);
    if (higher - lower > OCTAVE) break;
    low = lower;
    high = higher;
  }
  return [Math.min(OCTAVE, here.low - low), Math.min(OCTAVE, high - here.high)];
}

/** Signed number of steps of the highest keys in one direction, up to `FAR`. */
function run(views: readonly SliceView[], at: number, step: 1 | -1): number {
  let direction = 0;
  let count = 0;
  for (let nth = 0; nth < FAR; nth++) {
    const here = views[at + step * nth];
    const next = views[at + step * (nth + 1)];
    if (!here || !next) break;
    const way = Math.sign((next.high - here.high) * step);
    if (way === 0 || (direction !== 0 && way !== direction)) break;
    direction = way;
    count++;
  }
  return direction * count;
}

function coloursAround(views: readonly SliceView[], at: number): number {
  let bits = 0;
  for (let bit = 0; bit < 5; bit++) if (views[at + bit - 2]?.black[0]) bits |= 1 << bit;
  return bits;
}

function strideTo(view: SliceView, other: SliceView | undefined): number {
  return strideOf(other && other.keys.length > 0 ? wayOf(view, other) : 0);
}
