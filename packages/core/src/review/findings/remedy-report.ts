import { beatText } from '../../messages/beat.js';
import { fill } from '../../messages/fill.js';
import type { Language } from '../../options/options.js';
import type { Finger } from '../../score/model.js';
import type { Judged } from '../measure/judged.js';
import { type BySlice, fingersAt } from '../measure/judged.js';
import type { Movement } from '../measure/kinds.js';
import { realKey, type Scene } from '../measure/scene.js';
import type { At, Changed, NoteAt, RemedyReport } from '../report-types.js';
import { measureText } from '../words/places.js';
import { fingerName, REVIEW_WORDS } from '../words/wording.js';
import { noteOf, type Place } from './places.js';
import type { Remedy } from './remedies.js';
import { counted, rowOf, shortRow } from './rows.js';

/** Digits that are told one by one; more are told as a row, unless they are few and lie far apart in it. */
const SINGLE = 2;
const SINGLES = 4;
const SPARSE = 2;
/** mm that the forearm moves, or does not, where a move is said to fall away: our choice. */
const MOVES = 4;
const STAYS = 2;

/** Where a fingering differs from the printed one. */
export function changesOf(
  judged: Judged,
  place: Place,
  path: BySlice,
  from: number,
  to: number,
): readonly Changed[] {
  const changes: Changed[] = [];
  for (let at = from; at < to; at++) {
    const view = judged.views[at]!;
    const [was, is] = [fingersAt(judged, judged.printed.path, at), fingersAt(judged, path, at)];
    for (let nth = 0; nth < is.length; nth++) {
      if (!view.struck[nth] || was[nth] === is[nth]) continue;
      const printed = judged.digits[at]![nth];
      changes.push({
        ...noteOf(place, view.slice, realKey(view, nth)),
        finger: is[nth]!,
        ...(printed === undefined ? { inferred: was[nth]! } : { printed }),
      });
    }
  }
  return changes;
}

export function remedyReport(
  judged: Judged,
  place: Place,
  remedy: Remedy,
  saved: Movement,
  found: At,
  printed: Scene,
  other: Scene,
): RemedyReport {
  const changes = changesOf(judged, place, remedy.choice.path, remedy.from, remedy.to);
  const effect = fallsAway(printed, other, remedy, place.language);
  return {
    changes,
    digits: remedy.changed,
    saved: remedy.saved,
    kinds: saved,
    text: [
      told(judged, remedy, changes, place.language, found),
      ...(effect === undefined ? [] : [effect]),
    ].join(REVIEW_WORDS[place.language].between),
  };
}

/** The changed digits in words: one by one, or as a row from the first to the last. */
function told(
  judged: Judged,
  { from, to, choice }: Remedy,
  changes: readonly Changed[],
  language: Language,
  place: At,
): string {
  const only = changes.filter(({ printed }) => printed !== undefined);
  const isChanged = (at: number) => {
    const fingers = fingersAt(judged, choice.path, at);
    return judged.digits[at]!.some((digit, nth) => digit !== undefined && digit !== fingers[nth]);
  };
  let [first, last] = [from, to];
  while (!isChanged(first)) first++;
  while (!isChanged(last - 1)) last--;
  const alone = inGroups(only);
  if (only.length <= SINGLE || (alone.length <= SINGLES && last - first > SPARSE * alone.length)) {
    return alone.map((own) => insteadText(own, place, language)).join(', ');
  }
  return fill(REVIEW_WORDS[language].row, {
    fingers: shortRow(rowOf(judged, choice.path, first, last), language),
    key: keyAt(only[0]!, place, language),
    last: keyAt(only.at(-1)!, place, language),
  });
}

/** The same finger for the same digit on keys of one name, together. */
function inGroups(changes: readonly Changed[]): readonly (readonly Changed[])[] {
  const groups = new Map<string, Changed[]>();
  for (const own of changes) {
    const id = `${own.finger} ${own.printed} ${own.key}`;
    const group = groups.get(id);
    if (group) group.push(own);
    else groups.set(id, [own]);
  }
  return [...groups.values()];
}

function insteadText(group: readonly Changed[], place: At, language: Language): string {
  const [own] = group;
  const key = keyAt(own!, place, language);
  const text = fill(REVIEW_WORDS[language].instead, { finger: own!.finger, printed: own!.printed!, key });
  return group.length > 1 ? counted(text, group.length, language) : text;
}

/** A key's name, with its place where that is not the finding's. */
function keyAt({ name, measure, beat }: NoteAt, from: At, language: Language): string {
  const words = REVIEW_WORDS[language];
  const place = { key: name, where: measureText(words, measure), beat: beatText(beat, language) };
  if (measure !== from.measure) return fill(words.keyInMeasure, place);
  return beat === from.beat ? name : fill(words.keyAtBeat, place);
}

/** The move out, or else in, that the remedy spares: `3 then need not come out`. */
function fallsAway(
  printed: Scene,
  other: Scene,
  { from, to }: Remedy,
  language: Language,
): string | undefined {
  let spared: { readonly change: number; readonly finger: Finger } | undefined;
  for (let at = Math.max(0, from - 1); at < Math.min(printed.motion.length, to + 1); at++) {
    const change = printed.motion[at]!.depthChange;
    const finger = struckFinger(printed, at);
    if (finger === undefined || Math.abs(change) < MOVES || Math.abs(other.motion[at]!.depthChange) > STAYS)
      continue;
    // Of those out the furthest, then of those in the furthest.
    if (!spared || (change < 0 ? change < spared.change : change > spared.change && spared.change > 0))
      spared = { change, finger };
  }
  if (!spared) return undefined;
  const words = REVIEW_WORDS[language];
  const text = spared.change < 0 ? words.noLongerOut : words.noLongerIn;
  return fill(text, { finger: fingerName(spared.finger, language) });
}

function struckFinger({ views, fingers }: Scene, at: number): Finger | undefined {
  return fingers[at]![views[at]!.struck.indexOf(true)];
}
