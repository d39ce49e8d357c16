import type { Thresholds } from '../../options/review-options.js';
import { standsFor } from '../causes/hand.js';
import { type Unlike, unlikeIn } from '../causes/unlike.js';
import { fingersAt, type Judged } from '../measure/judged.js';
import type { Scene } from '../measure/scene.js';
import { Window } from '../measure/window.js';
import { causeText, type Drafted, sceneAround } from './findings.js';
import { atOf, noteOf, type Place } from './places.js';
import { measured, type Remedy } from './remedies.js';
import { remedyReport } from './remedy-report.js';
import { levelOf } from './thresholds.js';

/** The same figure with other digits: the finding stands where the digits take more movement. */
export function unlikeFindings(
  judged: Judged,
  printed: Scene,
  place: Place,
  thresholds: Thresholds,
): readonly Drafted[] {
  const seen = new Set<number>();
  return unlikeIn(judged).flatMap((unlike) => {
    const { from, to, away } = unlike;
    const there = { from: from + away, to: to + away, away: -away };
    const options = [unlike, there].map((own) => ({ own, remedy: likeTheOther(judged, own) }));
    const [best] = options
      .filter(({ remedy }) => remedy !== undefined)
      .toSorted((a, b) => b.remedy!.saved - a.remedy!.saved);
    const own = best && best.remedy!.saved > 0 ? best.own : unlike;
    if (seen.has(own.from)) return [];
    seen.add(own.from);
    return finding(
      judged,
      printed,
      place,
      own,
      best && best.remedy!.saved > 0 ? best.remedy : undefined,
      thresholds,
    );
  });
}

/** The slices with the digits of the other place. */
function likeTheOther(judged: Judged, { from, to, away }: Unlike): Remedy | undefined {
  const path = [...judged.printed.path];
  let changed = 0;
  for (let at = from; at < to; at++) {
    const wanted = fingersAt(judged, judged.printed.path, at + away).join();
    const candidate = judged.views[at]!.candidates.findIndex(({ fingers }) => fingers.join() === wanted);
    if (candidate < 0) return undefined;
    if (candidate !== path[at]) changed++;
    path[at] = candidate;
  }
  const own = new Window(judged, from, to).with(path);
  return { ...own, ...measured(judged, own), gained: own.saved, changed, distinct: changed, tie: false };
}

function finding(
  judged: Judged,
  printed: Scene,
  place: Place,
  { from, away }: Unlike,
  remedy: Remedy | undefined,
  thresholds: Thresholds,
): readonly Drafted[] {
  const found = standsFor(printed, from);
  const model = standsFor(printed, from + away);
  if (!found || !model) return [];
  const { slices, hand } = judged.line;
  const text = causeText(
    judged,
    place,
    'unlike',
    { ...found, other: model },
    atOf(place, slices[model.slice]!),
  );
  return [
    {
      ...noteOf(place, slices[from]!, found.key),
      slice: from,
      part: place.part.id,
      hand,
      level: levelOf(remedy?.saved ?? 0, thresholds),
      cause: 'unlike',
      finger: found.finger,
      mm: remedy?.saved ?? 0,
      text,
      ...(remedy && { remedy: reported(judged, place, remedy, printed) }),
    },
  ];
}

function reported(judged: Judged, place: Place, remedy: Remedy, printed: Scene) {
  const other = sceneAround(judged, printed, remedy);
  return remedyReport(
    judged,
    place,
    remedy,
    remedy.kinds,
    atOf(place, judged.line.slices[remedy.from]!),
    printed,
    other,
  );
}
