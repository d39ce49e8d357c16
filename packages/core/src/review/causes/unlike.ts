import { roughPace, type SliceView } from '../../fingering/view/view.js';
import { fingersAt, type Judged } from '../measure/judged.js';

/** Slices on either side that must be alike for two places to be the same figure: our choice. */
const AROUND = 4;
/** Slices that tell a figure at least: our choice. */
const LEAST = 6;

/** Printed digits that differ from those of the same figure elsewhere. */
export interface Unlike {
  /** Slices with other digits: from `from` up to `to`. */
  readonly from: number;
  readonly to: number;
  /** How much later or earlier, in slices, the figure has the digits that it has most often. */
  readonly away: number;
}

/**
 * Where the same keys, in any octave, in the same rhythm and the same surroundings have other digits in print: each place
 * that differs from what most of them have, of equals from the first.
 */
export function unlikeIn(judged: Judged): readonly Unlike[] {
  const places = new Map<string, number[]>();
  for (let at = 0; at < judged.views.length; at++) {
    const figure = isPrinted(judged, at) ? figureAt(judged.views, at) : undefined;
    if (figure === undefined) continue;
    const own = places.get(figure);
    if (own) own.push(at);
    else places.set(figure, [at]);
  }
  const models = new Map<number, number>();
  for (const own of places.values()) {
    if (own.length < 2) continue;
    const model = mostCommon(judged, own);
    for (const at of own) if (nameAt(judged, at) !== nameAt(judged, model)) models.set(at, model);
  }
  const found: { from: number; to: number; away: number }[] = [];
  for (const [at, model] of [...models].sort(([a], [b]) => a - b)) {
    const last = found.at(-1);
    if (last && at - last.to < AROUND && last.away === model - at) last.to = at + 1;
    else found.push({ from: at, to: at + 1, away: model - at });
  }
  return found;
}

function isPrinted({ digits, views }: Judged, at: number): boolean {
  const own = digits[at]!;
  return own.length > 0 && own.every((digit, nth) => digit !== undefined || !views[at]!.struck[nth]);
}

function nameAt(judged: Judged, at: number): string {
  return fingersAt(judged, judged.printed.path, at).join();
}

function mostCommon(judged: Judged, places: readonly number[]): number {
  const counts = new Map<string, number>();
  for (const at of places) counts.set(nameAt(judged, at), (counts.get(nameAt(judged, at)) ?? 0) + 1);
  const most = Math.max(...counts.values());
  return places.find((at) => counts.get(nameAt(judged, at)) === most)!;
}

/**
 * The slice and those around it, as far as the hand does not start afresh: keys against its lowest, which are struck, how
 * quick. Undefined where that is too little to tell a figure.
 */
function figureAt(views: readonly SliceView[], at: number): string | undefined {
  let [from, to] = [at, at + 1];
  while (at - from < AROUND && from > 0 && !views[from]!.fresh && !views[from]!.cut) from--;
  while (to - at <= AROUND && to < views.length && !views[to]!.fresh && !views[to]!.cut) to++;
  if (to - from < LEAST) return undefined;
  const { low } = views[at]!;
  let text = `${low % 12} ${at - from}`;
  for (let nth = from; nth < to; nth++) {
    const view = views[nth]!;
    const keys = view.keys.map((key, own) => `${key - low}${view.struck[own] ? '' : 'h'}`);
    text += ` ${keys.join('+')}:${view.fresh ? 'f' : roughPace(view.pace)}`;
  }
  return text;
}
