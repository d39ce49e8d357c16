import type { PlayingContext } from '../../hands/context.js';
import type { Line, Slice } from '../../hands/line.js';
import { beatText } from '../../messages/beat.js';
import { fill } from '../../messages/fill.js';
import type { Language } from '../../options/options.js';
import type { ReviewOptions, Trial } from '../../options/review-options.js';
import { optionError } from '../../score/errors.js';
import type { Part } from '../../score/model.js';
import { mostly } from '../findings/mostly.js';
import { digitsIn } from '../findings/passage-report.js';
import { atOf, nameOf, noteOf, type Place } from '../findings/places.js';
import { fingersAt, type Judged, judge } from '../measure/judged.js';
import { KINDS, type Movement, noMovement, total } from '../measure/kinds.js';
import type { Passage } from '../measure/passages.js';
import { realKey } from '../measure/scene.js';
import type { Changed, ComparisonReport } from '../report-types.js';
import { measureText, passageText } from '../words/places.js';
import { millimetres, REVIEW_WORDS } from '../words/wording.js';
import { type Compared, compared } from './compare.js';
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
  const own = { from: atOf(place, slices[passage.from]!), to: atOf(place, slices[passage.to - 1]!) };
  const digits = digitsIn(judged, passage);
  return {
    part: part.id,
    hand,
    ...own,
    digits,
    first: found.first,
    second: found.second,
    more: found.more,
    onsets: found.slices.map((own, nth) => ({ ...atOf(place, slices[from + nth]!), ...own })),
    differs,
    text: textOf(found, { ...own, hand, digits }, language, (nth) => keyInto(place, slices[from + nth]!)),
  };
}

/** The lowest key that a slice strikes, with its place. */
function keyInto(place: Place, slice: Slice): string {
  const { measure, beat } = atOf(place, slice);
  const words = REVIEW_WORDS[place.language];
  return fill(words.keyInMeasure, {
    key: nameOf(place.language, slice, slice.struck[0]!.key),
    where: measureText(words, measure),
    beat: beatText(beat, place.language),
  });
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

/** @param keyAt names the key of an onset, by its index */
function textOf(
  { first, second, more, slices }: Compared,
  { from, to, hand, digits }: Pick<ComparisonReport, 'from' | 'to' | 'hand' | 'digits'>,
  language: Language,
  keyAt: (onset: number) => string,
): string {
  const words = REVIEW_WORDS[language];
  const place = passageText(words, hand, from.measure, to.measure);
  const head = fill(digits === 0 ? words.comparedOpen : words.compared, {
    place,
    first: millimetres(total(first)),
    second: millimetres(total(second)),
  });
  const text = more >= LEAST ? words.takesMore : more <= -LEAST ? words.takesLess : words.takesSame;
  const changes = more > 0 ? differenceOf(second, first) : differenceOf(first, second);
  const kind = mostly(changes);
  const said = fill(text, { mm: millimetres(Math.abs(more)), kind: words.kinds[kind] });
  if (kind !== 'crossings' || text === words.takesSame) return `${head}${words.between}${said}.`;
  // A crossing lies between two notes, which need not be those whose digits were changed.
  const onset = indexOfMost(slices.map((own) => Math.abs(own.second.crossings - own.first.crossings)));
  return `${head}${words.between}${fill(words.mostAt, { text: said, key: keyAt(onset) })}.`;
}

function differenceOf(one: Movement, other: Movement): Movement {
  const change = noMovement();
  for (const kind of KINDS) change[kind] = one[kind] - other[kind];
  return change;
}

function indexOfMost(values: readonly number[]): number {
  return values.indexOf(Math.max(...values));
}

/** mm below which two fingerings are said to take the same movement: our choice. */
const LEAST = 3;
