import { writeMarks } from './musicxml/marks/write.js';
import { readScore } from './musicxml/read/score.js';
import { checkClearing, checkMarking, inputOf } from './options/allowed.js';
import type { Annotated, AnnotateOptions, Cleared, ClearOptions, Input, Output } from './options/options.js';
import { openSource } from './pipeline/open.js';
import { FINGERING_SHARE, type Progress, READING_SHARE } from './pipeline/progress.js';
import { reportOf } from './pipeline/report/report.js';
import { limitsOf, type Settings, settingsOf } from './pipeline/settings.js';
import { workOut } from './pipeline/work-out.js';
import { HandlineError, type Warning } from './score/errors.js';

/**
 * Marks a piano score: the least-movement fingering and the motion cues of both hands, spliced into the text. Marks of
 * an earlier run are replaced; every other character stays as it was.
 *
 * @param input MusicXML text, or the bytes of a MusicXML or .mxl file
 * @returns output of the same form, and the report
 * @throws HandlineError where the input is not a score or exceeds a limit, or an option is bad; never half an output
 */
export function annotate<T extends Input>(input: T, options: AnnotateOptions = {}): Annotated<T> {
  return annotateInSteps(input, options, unheard);
}

/** `annotate`, which tells what it begins with. */
export function annotateInSteps<T extends Input>(
  input: T,
  options: AnnotateOptions,
  tell: (progress: Progress) => void,
): Annotated<T> {
  const given = inputOf(input);
  checkMarking(options);
  return annotated(given, settingsOf(options), tell) as Annotated<T>;
}

/** As `annotate`, with input and options that are checked and complete. */
export function annotated<T extends string | Uint8Array<ArrayBuffer>>(
  input: T,
  settings: Settings,
  tell: (progress: Progress) => void = unheard,
): Annotated<T> {
  tell({ step: 'reading', share: 0 });
  const { text, root, wrap, warnings: found } = openSource(input, settings.limits, settings.file);
  const read = readScore(root, text, settings);
  const { marks, reports, warnings: doubts } = workOut(read, settings, tell);
  tell({ step: 'writing', share: READING_SHARE + FINGERING_SHARE });
  const { output, warnings: packing } = wrap(writeMarks(text, read, marks));
  const warnings = [...found, ...read.warnings, ...doubts, ...packing].map((one) => inFile(one, settings));
  if (settings.strict && warnings.length > 0) {
    const warning = warnings[0]!;
    throw new HandlineError('WARNING_AS_ERROR', warning.message, warning.place, { warning });
  }
  return { output: output as Output<T>, report: reportOf(reports, settings, warnings) };
}

/**
 * Takes our marks out of a score again and puts replaced digits back.
 *
 * @param input MusicXML text, or the bytes of a MusicXML or .mxl file
 * @returns output of the same form; on a score as `annotate` left it, what `annotate` was given
 * @throws HandlineError where the input is not a score or exceeds a limit, or an option is bad
 */
export function clear<T extends Input>(input: T, options: ClearOptions = {}): Cleared<T> {
  const given = inputOf(input);
  checkClearing(options);
  const { wrap, warnings } = openSource(given, limitsOf(options.limits), options.file);
  const { output, warnings: packing } = wrap([]);
  return { output: output as Output<T>, warnings: [...warnings, ...packing] };
}

function unheard(): void {}

function inFile(warning: Warning, { file }: Settings): Warning {
  return file === undefined ? warning : { ...warning, place: { file, ...warning.place } };
}
