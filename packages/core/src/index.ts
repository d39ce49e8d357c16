export { annotate, type ClearOptions, clear } from './annotate.js';
export type {
  Annotated,
  AnnotateOptions,
  Density,
  Language,
  Layer,
  Limits,
  LineReport,
  Report,
  SliceReport,
  SpanOption,
} from './options.js';
export {
  describe,
  type ErrorCode,
  HandlineError,
  type Place,
  type Warning,
  type WarningCode,
} from './score/errors.js';
