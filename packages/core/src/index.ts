export { type HandModel, handModel } from './anatomy/hand.js';
export { annotate, clear } from './annotate.js';
export { reasonText } from './cues/reasons.js';
export { type CueMeaning, cautionText, cueMeanings } from './cues/wording.js';
export { type Drill, type DrillProgress, drill } from './drill/drill.js';
export type { Degree, DegreeMotive } from './drill/motive/degrees.js';
export type { FigureSource } from './drill/motive/figure.js';
export type { DrillOptions, DrillPattern } from './drill/options.js';
export { type AlternativesOptions, alternatives } from './fingering/alternatives.js';
export { type Fingered, type FingeringDoubt, type FingerOptions, fingerLine } from './fingering/finger.js';
export type { LineFingering, SliceFingering } from './fingering/result.js';
export type { PlayingContext } from './hands/context.js';
export type { Flow, Join } from './hands/joins.js';
export type { Line, Slice, SliceKey } from './hands/line.js';
export type { Ornamented, Ornaments } from './hands/ornaments.js';
export type { Spelling } from './keyboard/key-names.js';
export { type LabelledScore, labelNotes } from './label-notes.js';
export { beatText } from './messages/beat.js';
export { warningText } from './messages/messages.js';
export type { GivenFingers } from './motion/fingers-in-use.js';
export { planMotion } from './motion/motion.js';
export type { Crossing, FingerDepth, MotionFinding, MotionPlan, SliceMotion } from './motion/plan.js';
export type { DepthCause, DepthReason } from './motion/reason.js';
export type { Fraction } from './numeric/fraction.js';
export type {
  Annotated,
  AnnotateOptions,
  Cleared,
  ClearOptions,
  Criterion,
  Density,
  Input,
  Language,
  Layer,
  Limits,
  LineOptions,
  Output,
  SpanOption,
} from './options/options.js';
export {
  type CompactLine,
  type CompactReport,
  type CompactSlice,
  type Finding,
  type LineReport,
  type NextBest,
  type NoteReport,
  REPORT_VERSION,
  type Report,
  type Shared,
  type SliceReport,
  type Unreachable,
} from './options/report.js';
export type { MarkReviewOptions, ReviewOptions, Thresholds, Trial } from './options/review-options.js';
export { carryLine } from './pictures/carry-line.js';
export { depthRibbon } from './pictures/depth-ribbon.js';
export { keyboardView } from './pictures/keyboard/keyboard-view.js';
export type { KeyboardOptions, RibbonOptions, SlicePlace } from './pictures/options.js';
export type { ReadLine } from './pipeline/printed-lines.js';
export type { Progress } from './pipeline/progress.js';
export { compactReport } from './pipeline/report/compact-report.js';
export {
  type PlannedLine,
  type PlannedLines,
  planDigits,
  type ReadLines,
  readLines,
} from './read-lines.js';
export type { CauseName } from './review/causes/cause.js';
export { LEVELS, type Level, THRESHOLDS } from './review/findings/thresholds.js';
export { markReview } from './review/mark-review.js';
export { type Kind, type Movement, sumOfMovements } from './review/measure/kinds.js';
export { type Compared, compare } from './review/others/compare.js';
export { type FindingText, findingTexts } from './review/page/finding-texts.js';
export { reviewMarkdown } from './review/page/markdown.js';
export { type ReviewedScore, reviewsTable } from './review/page/scores.js';
export { type ReviewTextOptions, reviewText } from './review/page/text.js';
export type {
  At,
  Changed,
  ComparisonReport,
  FingeredOnset,
  NoteAt,
  PassageReport,
  RemedyReport,
  Review,
  ReviewFinding,
  WholeFingering,
} from './review/report-types.js';
export { review } from './review/review.js';
export { movementNames } from './review/words/wording.js';
export { isUpbeat } from './score/beat.js';
export {
  describe,
  type ErrorCode,
  type ErrorDetails,
  HandlineError,
  type OptionMistake,
  type Place,
  type PlaceName,
  type Warning,
  type WarningCode,
} from './score/errors.js';
export type { Finger, Hand, Span } from './score/model.js';
export { type NoteDigit, setDigits } from './set-digits.js';
export {
  type AnnotateWorker,
  type AsyncOptions,
  annotateAsync,
  type Signal,
} from './worker/annotate-async.js';
export { WorkerError } from './worker/endings.js';
export type { Port } from './worker/port.js';
export { serveAnnotate } from './worker/serve.js';
