import { fill } from '../../messages/fill.js';
import type { Thresholds } from '../../options/review-options.js';
import type { CauseName, Found } from '../causes/cause.js';
import type { Judged } from '../measure/judged.js';
import type { Passage } from '../measure/passages.js';
import { isPrinted, type Scene, sceneOf, wasPrinted } from '../measure/scene.js';
import type { At, ReviewFinding } from '../report-types.js';
import { fingerName, millimetres, REVIEW_WORDS } from '../words/wording.js';
import { type Diagnosis, diagnose } from './diagnosis.js';
import { gravity, isTold } from './gravity.js';
import { mostly } from './mostly.js';
import { atOf, nameOf, noteOf, type Place } from './places.js';
import { type Remedy, remediesIn } from './remedies.js';
import { remedyReport } from './remedy-report.js';
import { bracketed } from './rows.js';

/** A finding that is not numbered yet, at its slice. */
export interface Drafted extends Omit<ReviewFinding, 'number'> {
  readonly slice: number;
}

/** Slices around a remedy whose motion is planned anew. */
const AROUND = 5;

/** mm that the forearm must travel less in and out for a change of many digits to be mentioned: our choice. */
const LEAST_TRAVEL = 8;

/** A remedy with its motion. */
export function sceneAround(judged: Judged, printed: Scene, remedy: Remedy): Scene {
  const [from, to] = [Math.max(0, remedy.from - AROUND), Math.min(judged.views.length, remedy.to + AROUND)];
  return sceneOf(judged, remedy.choice, from, to, printed.across);
}

/** mm that the forearm travels less in and out with a remedy. */
function sparedTravel(printed: Scene, other: Scene, { from, to }: Remedy): number {
  let spared = 0;
  for (let at = from; at < Math.min(to + 1, other.motion.length); at++) {
    spared += Math.abs(printed.motion[at]!.depthChange) - Math.abs(other.motion[at]!.depthChange);
  }
  return spared;
}

/** What one hand's digits cost in some passages, why, and what is easier. */
export function findingsIn(
  judged: Judged,
  printed: Scene,
  passages: readonly Passage[],
  place: Place,
  thresholds: Thresholds,
): readonly Drafted[] {
  const findings: Drafted[] = [];
  const isChosen = (slice: number) => passages.some(({ from, to }) => slice >= from && slice < to);
  for (const remedy of remediesIn(judged, isChosen, thresholds)) {
    // Without less of it by the cost, the plan will not travel so much less.
    if (remedy.tie && remedy.kinds['in-and-out'] + remedy.kinds.curl <= 0) continue;
    const other = sceneAround(judged, printed, remedy);
    if (remedy.tie && sparedTravel(printed, other, remedy) < LEAST_TRAVEL) continue;
    const diagnosis = diagnose(judged, printed, other, remedy);
    if (diagnosis && isTold(diagnosis.cause, remedy, thresholds))
      findings.push(finding(judged, place, remedy, diagnosis, printed, other, thresholds));
  }
  return findings;
}

function finding(
  judged: Judged,
  place: Place,
  remedy: Remedy,
  diagnosis: Diagnosis,
  printed: Scene,
  other: Scene,
  thresholds: Thresholds,
): Drafted {
  const { cause, found, saved } = diagnosis;
  const { slices, hand } = judged.line;
  const level = gravity(diagnosis, remedy, printed, thresholds);
  return {
    ...noteOf(place, slices[found.slice]!, found.key),
    slice: found.slice,
    part: place.part.id,
    hand,
    level,
    cause,
    finger: found.finger,
    mm: remedy.saved,
    text: [
      causeText(judged, place, cause, found),
      ...(level === 'remark'
        ? [tieText(place, diagnosis, remedy, sparedTravel(printed, other, remedy))]
        : []),
    ].join('. '),
    remedy: remedyReport(judged, place, remedy, saved, atOf(place, slices[found.slice]!), printed, other),
  };
}

/** The cause in words, inferred fingers in brackets. */
export function causeText(
  judged: Pick<Judged, 'line' | 'views' | 'digits'>,
  { language, otherLine }: Place,
  cause: CauseName,
  { slice, finger, key, other, mm = 0, beyond = false }: Found,
  more: Partial<At> = {},
): string {
  const { line } = judged;
  const words = REVIEW_WORDS[language];
  const alone = other === undefined ? words.alone[cause] : undefined;
  const text = beyond ? words.beyond : (alone ?? words.causes[cause]);
  const own = nameOf(language, line.slices[slice]!, key);
  const lines = other?.otherHand && otherLine ? otherLine : line;
  const theirs = other && nameOf(language, lines.slices[other.slice]!, other.key);
  // Two keys of one name: which is which?
  const told = (name: string, isLower: boolean) =>
    own !== theirs || key === other?.key ? name : fill(isLower ? words.lower : words.upper, { key: name });
  return fill(text, {
    finger: isPrinted(judged, slice, key) ? fingerName(finger, language) : bracketed(finger),
    key: told(own, key < (other?.key ?? key)),
    ...(other && {
      other:
        other.otherHand || wasPrinted(judged, other.slice, other.key)
          ? fingerName(other.finger, language)
          : bracketed(other.finger),
      otherKey: told(theirs!, other.key < key),
    }),
    mm: millimetres(mm),
    ...more,
  });
}

/**
 * `Both work; the printed one takes 9 mm more, mostly sideways`, or `... the forearm travels 9 mm more in and out`. Of keys
 * beyond this hand it is not said that they work.
 */
function tieText(
  { language }: Place,
  { cause, found, saved }: Diagnosis,
  { saved: mm, tie }: Remedy,
  travel: number,
): string {
  const words = REVIEW_WORDS[language];
  if (cause === 'held-key-lost') return words.pedalHolds;
  if (tie) return fill(words.travelsMore, { mm: millimetres(travel) });
  return fill(found.beyond ? words.printedTakesMore : words.bothWork, {
    mm: millimetres(mm),
    kind: words.kinds[mostly(saved)],
  });
}
