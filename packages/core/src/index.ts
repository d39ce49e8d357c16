export { type HandModel, handModel } from './anatomy/hand.js';
export { annotate, clear } from './annotate.js';
export { reasonText } from './cues/reasons.js';
export { type AlternativesOptions, alternatives } from './fingering/alternatives.js';
export { type Fingered, type FingeringDoubt, type FingerOptions, fingerLine } from './fingering/finger.js';
export type { LineFingering, SliceFingering } from './fingering/result.js';
export type { PlayingContext } from './hands/context.js';
export type { Flow, Join } from './hands/joins.js';
export type { Line, Slice, SliceKey } from './hands/line.js';
export type { Ornamented, Ornaments } from './hands/ornaments.js';
export type { Spelling } from './keyboard/key-names.js';
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
export type { Progress } from './pipeline/progress.js';
export { compactReport } from './pipeline/report/compact-report.js';
export {
  type PlannedLine,
  type PlannedLines,
  planDigits,
  type ReadLine,
  type ReadLines,
  readLines,
} from './read-lines.js';
export {
  describe,
  type ErrorCode,
  type ErrorDetails,
  HandlineError,
  type Place,
  type Warning,
  type WarningCode,
} from './score/errors.js';
export type { Finger, Hand } from './score/model.js';
export {
  type AnnotateWorker,
  type AsyncOptions,
  annotateAsync,
  type Signal,
} from './worker/annotate-async.js';
export type { Port } from './worker/port.js';
export { serveAnnotate } from './worker/serve.js';
