import type { PlayingContext } from '../../hands/context.js';
import type { Line } from '../../hands/line.js';
import { fill } from '../../messages/fill.js';
import type { Language } from '../../options/options.js';
import type { ReviewOptions, Trial } from '../../options/review-options.js';
import { optionError } from '../../score/errors.js';
import type { Part } from '../../score/model.js';
import { mostly } from '../findings/mostly.js';
import { atOf, noteOf, type Place } from '../findings/places.js';
import { fingersAt, type Judged, judge } from '../measure/judged.js';
import { KINDS, noMovement, total } from '../measure/kinds.js';
import type { Passage } from '../measure/passages.js';
import { realKey } from '../measure/scene.js';
import type { Changed, ComparisonReport } from '../report-types.js';
import { millimetres, REVIEW_WORDS } from '../words/wording.js';
import { compared } from './compare.js';
import { tried } from './trials.js';

/** One hand's line as a comparison needs it. */
export interface Own {
  readonly judged: Judged;
  readonly part: Part;
  readonly context: PlayingContext;
  readonly passages: readonly Passage[];
}

/** Slices around other digits whose movement depends on them. */
const AROUND = 3;

/** The second fingerings that are asked for, each beside the printed one. */
export function comparisonsOf(
  lines: readonly Own[],
  second: readonly Line[] | undefined,
  { tries = [], language = 'en' }: Pick<ReviewOptions, 'tries' | 'language'>,
): readonly ComparisonReport[] {
  const ofTries = tries.map((trial) => {
    const own = lineOf(lines, trial);
    const { line, from, to } = tried(own.judged.line, own.part, trial);
    return comparison(own, line, { from, to }, language);
  });
  return second ? [...ofTries, ...againstSecond(lines, second, language)] : ofTries;
}

function lineOf(lines: readonly Own[], { hand, part, measure }: Trial): Own {
  const found = lines.find(
    (own) =>
      own.judged.line.hand === hand &&
      (part === undefined || own.part.id === part) &&
      own.part.measures.some(({ number }) => number === measure),
  );
  if (found) return found;
  const where = part === undefined ? '' : ` of part ${part}`;
  throw optionError('tries', `the ${hand} hand${where} plays nothing in measure ${measure}`);
}

/** Passages in which the digits of the second score differ. */
function againstSecond(
  lines: readonly Own[],
  second: readonly Line[],
  language: Language,
): readonly ComparisonReport[] {
  return lines.flatMap((own) => {
    const { part, hand } = own.judged.line;
    const other = second.find((line) => line.part === part && line.hand === hand);
    if (!other || !sameNotes(own.judged.line, other)) {
      const message = `the ${own.judged.line.hand} hand of the second score does not play the same notes`;
      throw optionError('against', message, { part: own.part.id });
    }
    return own.passages
      .filter(({ from, to }) => differ(own.judged.line, other, from, to))
      .map((passage) => comparison(own, other, passage, language));
  });
}

function sameNotes(one: Line, other: Line): boolean {
  return (
    one.hand === other.hand &&
    one.slices.length === other.slices.length &&
    one.slices.every(({ struck }, at) => {
      const keys = other.slices[at]!.struck;
      return keys.length === struck.length && keys.every(({ key }, nth) => key === struck[nth]!.key);
    })
  );
}

function differ(one: Line, other: Line, from: number, to: number): boolean {
  for (let at = from; at < to; at++) {
    const keys = other.slices[at]!.struck;
    if (one.slices[at]!.struck.some(({ fixed }, nth) => fixed !== keys[nth]!.fixed)) return true;
  }
  return false;
}

function comparison(
  { judged, part, context }: Own,
  line: Line,
  passage: Passage,
  language: Language,
): ComparisonReport {
  const place = { part, language };
  const second = judge(line, judged.hand, context);
  const { slices, hand } = judged.line;
  const from = Math.max(0, passage.from - AROUND);
  const to = Math.min(slices.length, passage.to + AROUND);
  const found = compared(judged, second, from, to);
  const differs = differences(judged, second, from, to, place);
  return {
    part: part.id,
    hand,
    from: atOf(place, slices[passage.from]!),
    to: atOf(place, slices[passage.to - 1]!),
    first: found.first,
    second: found.second,
    more: found.more,
    onsets: found.slices.map((own, nth) => ({ ...atOf(place, slices[from + nth]!), ...own })),
    differs,
    text: textOf(
      found,
      place,
      hand,
      atOf(place, slices[passage.from]!).measure,
      atOf(place, slices[passage.to - 1]!).measure,
    ),
  };
}

/** Notes on which the second fingering has another finger. */
function differences(
  first: Judged,
  second: Judged,
  from: number,
  to: number,
  place: Place,
): readonly Changed[] {
  const changes: Changed[] = [];
  for (let at = from; at < to; at++) {
    const [one, two] = [first.views[at]!, second.views[at]!];
    const was = fingersAt(first, first.printed.path, at);
    const is = fingersAt(second, second.printed.path, at);
    two.keys.forEach((_, nth) => {
      const key = realKey(two, nth);
      const same = one.keys.findIndex((_, other) => one.struck[other] && realKey(one, other) === key);
      if (!two.struck[nth] || same < 0 || was[same] === is[nth]) return;
      const printed = first.digits[at]![same];
      changes.push({
        ...noteOf(place, one.slice, key),
        finger: is[nth]!,
        ...(printed === undefined ? { inferred: was[same]! } : { printed }),
      });
    });
  }
  return changes;
}

function textOf(
  { first, second, more }: ReturnType<typeof compared>,
  { language }: Place,
  hand: Judged['line']['hand'],
  from: string,
  to: string,
): string {
  const words = REVIEW_WORDS[language];
  const at = fill(from === to ? words.measure : words.measures, { hand: words.hands[hand], from, to });
  const head = fill(words.compared, {
    place: at,
    first: millimetres(total(first)),
    second: millimetres(total(second)),
  });
  const change = noMovement();
  for (const kind of KINDS) change[kind] = more > 0 ? second[kind] - first[kind] : first[kind] - second[kind];
  const text = more >= LEAST ? words.takesMore : more <= -LEAST ? words.takesLess : words.takesSame;
  return `${head}${words.between}${fill(text, { mm: millimetres(Math.abs(more)), kind: words.kinds[mostly(change)] })}.`;
}

/** mm below which two fingerings are said to take the same movement: our choice. */
const LEAST = 3;
