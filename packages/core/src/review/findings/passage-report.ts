import { rounded } from '../../numeric/fixed-point.js';
import { fingersAt, type Judged } from '../measure/judged.js';
import { type Movement, movementOf, printedMovement, sumOfMovements, total } from '../measure/kinds.js';
import type { Passage } from '../measure/passages.js';
import { realKey } from '../measure/scene.js';
import type { FingeredOnset, PassageReport } from '../report-types.js';
import { atOf, type Place } from './places.js';

/** What a line's slices cost, by slice: with the printed digits, and with the fingering of least movement. */
export interface LineMovement {
  readonly printed: readonly Movement[];
  readonly least: readonly Movement[];
}

export function lineMovement(judged: Judged): LineMovement {
  const { objective, search, views } = judged;
  return {
    printed: printedMovement(judged),
    least: movementOf(judged, search.find(objective), 0, views.length),
  };
}

/** What a passage's digits cost, beside what it costs where the whole line is fingered for least movement. */
export function passageReport(
  judged: Judged,
  line: LineMovement,
  { from, to }: Passage,
  place: Place,
  findings: readonly number[],
): PassageReport {
  const { slices, hand } = judged.line;
  const digits = digitsIn(judged, { from, to });
  const printed = sumOfMovements(line.printed.slice(from, to));
  const least = sumOfMovements(line.least.slice(from, to));
  return {
    part: place.part.id,
    hand,
    from: atOf(place, slices[from]!),
    to: atOf(place, slices[to - 1]!),
    notes: notesIn(judged, { from, to }),
    digits,
    printed,
    least,
    mm: { printed: total(printed), least: total(least), more: rounded(total(printed) - total(least)) },
    findings,
    fingering: onsets(judged, { from, to }, place),
  };
}

/** How many notes of a passage have a digit in print. */
export function digitsIn(judged: Judged, { from, to }: Passage): number {
  let count = 0;
  for (let at = from; at < to; at++) for (const digit of judged.digits[at]!) if (digit !== undefined) count++;
  return count;
}

function notesIn(judged: Judged, { from, to }: Passage): number {
  let count = 0;
  for (let at = from; at < to; at++) count += judged.line.slices[at]!.struck.length;
  return count;
}

function onsets(judged: Judged, { from, to }: Passage, place: Place): readonly FingeredOnset[] {
  const found: FingeredOnset[] = [];
  for (let at = from; at < to; at++) {
    const view = judged.views[at]!;
    const fingers = fingersAt(judged, judged.printed.path, at);
    const own = view.slice.struck.map(({ key }) => {
      const nth = view.keys.findIndex((_, other) => view.struck[other] && realKey(view, other) === key);
      return { key, finger: fingers[nth] ?? null, printed: judged.digits[at]![nth] !== undefined };
    });
    found.push({
      ...atOf(place, view.slice),
      keys: own.map(({ key }) => key),
      fingers: own.map(({ finger }) => finger),
      printed: own.map(({ printed }) => printed),
    });
  }
  return found;
}
