import { cautionText } from '../cues/wording.js';
import type { PlayingContext } from '../hands/context.js';
import { includesHand } from '../hands/line.js';
import { rounded } from '../numeric/fixed-point.js';
import { checkReviewing, inputOf } from '../options/allowed.js';
import type { Input, Language } from '../options/options.js';
import type { ReviewOptions, Thresholds } from '../options/review-options.js';
import { openLines } from '../pipeline/printed-lines.js';
import { type Selection, selectMeasures } from '../pipeline/selection.js';
import { settingsOf } from '../pipeline/settings.js';
import type { Part } from '../score/model.js';
import { acrossOf } from './causes/hands-in-the-way.js';
import { type Drafted, findingsIn } from './findings/findings.js';
import { lineMovement, passageReport } from './findings/passage-report.js';
import { LEVELS, type Level, THRESHOLDS } from './findings/thresholds.js';
import { unlikeFindings } from './findings/unlike-findings.js';
import { type Judged, judge } from './measure/judged.js';
import { type Passage, passagesOf } from './measure/passages.js';
import { printedScene } from './measure/scene.js';
import { comparisonsOf } from './others/comparisons.js';
import { usualFingers, wholeFingerings } from './others/whole-fingerings.js';
import type { PassageReport, Review, ReviewFinding } from './report-types.js';
import { REVIEW_WORDS } from './words/wording.js';

/** One hand's line under review. */
export interface Reviewed {
  readonly judged: Judged;
  readonly part: Part;
  readonly context: PlayingContext;
  /** Of the whole line, and those of them that the chosen measures touch. */
  readonly all: readonly Passage[];
  readonly passages: readonly Passage[];
  /** Whether a measure is chosen, by its index. */
  readonly chosen: Selection;
}

/**
 * Judges the digits in print: what they cost in movement, why, and the easier way, passage by passage.
 *
 * @param input MusicXML text, or the bytes of a MusicXML or .mxl file
 * @throws HandlineError where the input is not a score or exceeds a limit, or an option is bad
 */
export function review(input: Input, options: ReviewOptions = {}): Review {
  const given = inputOf(input);
  checkReviewing(options);
  const { language = 'en' } = options;
  const thresholds = { ...THRESHOLDS, ...options.thresholds };
  const opened = openLines(given, reading(options));
  const lines = reviewed(opened.lines, options);
  const second =
    options.against === undefined ? undefined : openLines(inputOf(options.against), reading(options));
  const findings = numbered(
    lines.flatMap((own) =>
      drafted(own, otherHandOf(own, lines), language, thresholds).filter(({ slice }) =>
        own.chosen(own.judged.line.slices[slice]!.measure),
      ),
    ),
  );
  const passages = lines.flatMap(({ judged, part, context, passages: own }) => {
    const movement = lineMovement(judged);
    const wanted = options.alternatives ?? 0;
    const usual = wanted > 0 ? usualFingers(judged, context) : undefined;
    return own.map((passage) => {
      const place = { part, language };
      const numbers = numbersIn(findings, judged, part, passage);
      const report = passageReport(judged, movement, passage, place, numbers);
      if (!usual || (numbers.length === 0 && options.measures === undefined)) return report;
      return { ...report, alternatives: wholeFingerings(judged, passage, place, usual, wanted) };
    });
  });
  return {
    version: 1,
    language,
    thresholds,
    ...sums(passages),
    levels: countLevels(findings),
    passages,
    findings: findings.map(({ slice: _, ...finding }) => finding),
    comparisons: comparisonsOf(
      lines,
      second?.lines.map(({ read }) => read.line),
      options,
    ),
    warnings: opened.warnings,
    advice: REVIEW_WORDS[language].feel,
    caution: cautionText(language),
  };
}

/**
 * What one hand's digits cost, passage by passage, and where like figures have other digits; in the whole line, because a
 * finding may stand at a note before its passage.
 */
function drafted(
  { judged, part, all }: Reviewed,
  other: Reviewed | undefined,
  language: Language,
  thresholds: Thresholds,
): readonly Drafted[] {
  const place = { part, language, ...(other && { otherLine: other.judged.line }) };
  const scene = printedScene(judged, other && acrossOf(judged, other.judged));
  const found = gravestOfEach(findingsIn(judged, scene, all, place, thresholds));
  return withUnlike(found, unlikeFindings(judged, scene, place, thresholds));
}

/** Share of what a finding saves with which the digits of the like figure are its remedy: our choice. */
const AS_GOOD = 0.8;

/** Where the digits of the same figure elsewhere are as good a remedy, that is the cause: the slip of an editor. */
function withUnlike(found: readonly Drafted[], unlike: readonly Drafted[]): readonly Drafted[] {
  const kept = unlike.filter((own) =>
    found.filter((other) => overlap(own, other)).every((other) => own.mm >= AS_GOOD * other.mm),
  );
  return [...found.filter((other) => !kept.some((own) => overlap(own, other))), ...kept];
}

/** True where two findings propose other fingers for the same note. */
function overlap(one: Drafted, other: Drafted): boolean {
  const notes = (own: Drafted) => [
    own.note.start,
    ...(own.remedy?.changes ?? []).map(({ note }) => note.start),
  ];
  return notes(one).some((start) => notes(other).includes(start));
}

/** One finding for a note: of several ways to mend it the one that saves most. */
function gravestOfEach(findings: readonly Drafted[]): readonly Drafted[] {
  return findings.filter(
    (own) =>
      !findings.some(
        (other) =>
          other !== own &&
          other.note.start === own.note.start &&
          (other.mm > own.mm || (other.mm === own.mm && findings.indexOf(other) < findings.indexOf(own))),
      ),
  );
}

/** The other hand of the same player. */
function otherHandOf({ judged: { line }, part }: Reviewed, lines: readonly Reviewed[]): Reviewed | undefined {
  const partner = part.partner?.part ?? part.index;
  return lines.find(({ judged: { line: own } }) => own.part === partner && own.hand !== line.hand);
}

/** The options that say what is read. */
export function reading({ file, parts, staff, span, limits, language }: ReviewOptions) {
  return {
    ...(file !== undefined && { file }),
    ...(parts !== undefined && { parts }),
    ...(staff !== undefined && { staff }),
    ...(span !== undefined && { span }),
    ...(limits !== undefined && { limits }),
    ...(language !== undefined && { language }),
  };
}

function reviewed(lines: ReturnType<typeof openLines>['lines'], options: ReviewOptions): readonly Reviewed[] {
  const settings = settingsOf({
    ...reading(options),
    ...(options.hands !== undefined && { hands: options.hands }),
    ...(options.measures !== undefined && { measures: options.measures }),
  });
  return lines
    .filter(({ read }) => includesHand(settings.hands, read.line.hand))
    .map(({ read: { line, hand, context }, part }) => {
      const chosen = selectMeasures(part.measures, settings);
      const all = passagesOf(line);
      const passages = all.filter(({ from, to }) =>
        line.slices.slice(from, to).some(({ measure }) => chosen(measure)),
      );
      return { judged: judge(line, hand, context), part, context, all, passages, chosen };
    });
}

type Numbered = ReviewFinding & { readonly slice: number };

/** In the order of the score. */
function numbered(findings: readonly Drafted[]): readonly Numbered[] {
  return findings
    .toSorted((a, b) => a.note.start - b.note.start)
    .map((finding, nth) => ({ ...finding, number: nth + 1 }));
}

function numbersIn(
  findings: readonly Numbered[],
  { line }: Judged,
  part: Part,
  { from, to }: Passage,
): number[] {
  return findings
    .filter((own) => own.part === part.id && own.hand === line.hand && own.slice >= from && own.slice < to)
    .map(({ number }) => number);
}

function countLevels(findings: readonly ReviewFinding[]): Record<Level, number> {
  const counts = { 'worth changing': 0, 'worth a look': 0, remark: 0 };
  for (const level of LEVELS) counts[level] = findings.filter((own) => own.level === level).length;
  return counts;
}

function sums(passages: readonly PassageReport[]): Pick<Review, 'notes' | 'digits' | 'mm'> {
  let [notes, digits, printed, least] = [0, 0, 0, 0];
  for (const own of passages) {
    notes += own.notes;
    digits += own.digits;
    if (own.digits === 0) continue;
    printed += own.mm.printed;
    least += own.mm.least;
  }
  return {
    notes,
    digits,
    mm: { printed: rounded(printed), least: rounded(least), more: rounded(printed - least) },
  };
}
