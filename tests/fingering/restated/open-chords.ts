import type { SliceView } from '#core/fingering/view/view.js';

/** Semitones from note to note and over all, keys, and the mm equivalents of a key that returns under another finger. */
const OPEN = { from: 3, to: 11, wider: 12, widest: 20, keys: 5, price: 40 };

const single = (view: SliceView | undefined): view is SliceView => view?.keys.length === 1;

/** Whether a slice is of the same broken chord as the one before. */
function isOfChord(views: readonly SliceView[], at: number): boolean {
  const [before, view] = [views[at - 1], views[at]];
  if (!single(before) || !single(view) || view.fresh || view.cut) return false;
  const apart = Math.abs(view.keys[0]! - before.keys[0]!);
  return before.slice.measure === view.slice.measure && apart >= OPEN.from && apart <= OPEN.to;
}

/** The slices of the broken chord around a slice. */
function chordAround(views: readonly SliceView[], at: number): readonly number[] {
  let [first, last] = [at, at];
  while (isOfChord(views, first)) first--;
  while (isOfChord(views, last + 1)) last++;
  return views.flatMap((_, nth) => (nth >= first && nth <= last ? [nth] : []));
}

/** The slices at which a key of an open chord is struck, if it is struck more than once, the earliest first. */
export function returnsInOpenChords(views: readonly SliceView[]) {
  return views.flatMap((view, at) => {
    const chord = chordAround(views, at);
    const keys = chord.map((nth) => views[nth]!.keys[0]!);
    const span = Math.max(...keys) - Math.min(...keys);
    if (span <= OPEN.wider || span > OPEN.widest || new Set(keys).size > OPEN.keys) return [];
    const slices = chord.filter((nth) => views[nth]!.keys[0] === view.keys[0]);
    return slices.length > 1 && slices[0] === at ? [{ slices, before: 0, after: 0, price: OPEN.price }] : [];
  });
}
