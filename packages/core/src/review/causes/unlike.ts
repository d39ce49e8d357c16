import { roughPace, type SliceView } from '../../fingering/view/view.js';
import { fingersAt, type Judged } from '../measure/judged.js';

/** Slices on either side that must be alike for two places to be the same figure: our choice. */
const AROUND = 4;

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
  for (let at = AROUND; at < judged.views.length - AROUND; at++) {
    if (!isPrinted(judged, at)) continue;
    const figure = figureAt(judged.views, at);
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

/** The slice and those around it: keys against its lowest, which are struck, how quick, where the hand starts afresh. */
function figureAt(views: readonly SliceView[], at: number): string {
  const { low } = views[at]!;
  let text = `${low % 12}`;
  for (let nth = at - AROUND; nth <= at + AROUND; nth++) {
    const view = views[nth]!;
    const keys = view.keys.map((key, own) => `${key - low}${view.struck[own] ? '' : 'h'}`);
    text += ` ${keys.join('+')}:${roughPace(view.pace)}${view.fresh ? 'f' : ''}`;
  }
  return text;
}
