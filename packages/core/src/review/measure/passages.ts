import { isFreshStart } from '../../hands/fresh-start.js';
import type { Line, Slice } from '../../hands/line.js';

/** Slices from `from` up to `to` that are judged together. */
export interface Passage {
  readonly from: number;
  readonly to: number;
}

/** Measures that a passage has at most, and those that it has at least where no rest or slur ends it: our choice. */
const MOST_MEASURES = 4;
const LEAST_MEASURES = 2;
/** Slices below which a phrase is joined to the next one: a sigh of two notes is no passage. */
const LEAST_SLICES = 5;
/** Slices that tell a figure. */
const FIGURE = 4;

/**
 * The passages of a line, all of it, in order: phrases, as slurs and rests show them, short ones joined, long ones parted
 * at a barline, if possible where the figure with which they began comes back.
 */
export function passagesOf(line: Line): readonly Passage[] {
  const { slices } = line;
  const passages: Passage[] = [];
  for (let from = 0; from < slices.length; ) {
    const to = endOf(slices, from);
    passages.push({ from, to });
    from = to;
  }
  return passages;
}

function endOf(slices: readonly Slice[], from: number): number {
  const measuresTo = (at: number) => slices[at]!.measure - slices[from]!.measure;
  let barline = slices.length;
  let again = -1;
  for (let at = from + 1; at < slices.length; at++) {
    const isBarline = slices[at]!.measure !== slices[at - 1]!.measure;
    const enough = at - from >= LEAST_SLICES;
    if (measuresTo(at) >= MOST_MEASURES) return again > 0 ? again : Math.min(barline, at);
    // A rest between two chords of an accompaniment ends no phrase within a measure.
    if (enough && isFreshStart(slices[at]!) && (isBarline || slices[at]!.phraseStart)) {
      if (measuresTo(at) >= 1 || slices[at]!.phraseStart) return at;
    }
    if (isBarline && enough && measuresTo(at) >= LEAST_MEASURES) {
      barline = at;
      if (again < 0 && figure(slices, at) === figure(slices, from)) again = at;
    }
  }
  return slices.length;
}

/** Intervals and rhythm of the slices from `at` on. */
function figure(slices: readonly Slice[], at: number): string {
  let text = '';
  for (let nth = at; nth < Math.min(slices.length, at + FIGURE); nth++) {
    const { struck, seconds } = slices[nth]!;
    const low = (struck[0]?.key ?? 0) - (slices[at]!.struck[0]?.key ?? 0);
    text += `${low}:${struck.length}:${nth === at ? '' : Math.round(seconds * 1000)} `;
  }
  return text;
}
