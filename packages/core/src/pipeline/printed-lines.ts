import type { HandModel } from '../anatomy/hand.js';
import { buildLines } from '../hands/build.js';
import { type PlayingContext, playingContext } from '../hands/context.js';
import type { Line } from '../hands/line.js';
import { checkOf, readToken } from '../musicxml/marks/record/token.js';
import { readScore } from '../musicxml/read/score.js';
import type { XmlElement } from '../musicxml/xml/tree.js';
import type { AnnotateOptions, LineOptions } from '../options/options.js';
import type { Warning } from '../score/errors.js';
import type { Part } from '../score/model.js';
import { Clock } from '../score/tempo.js';
import { openAsPrinted } from './open.js';
import { settingsOf } from './settings.js';

/** What one hand plays, with what `fingerLine`, `alternatives` and `planMotion` need to know about it. */
export interface ReadLine {
  /** Id of the part. */
  readonly partId: string;
  /** What the hand plays, slice by slice. */
  readonly line: Line;
  /** The hand of the chosen span. */
  readonly hand: HandModel;
  /** What the slices do not show, for the options of `fingerLine` and `alternatives`. */
  readonly context: PlayingContext;
}

/** The lines of a score as printed, our marks included, with the parts that they belong to. */
export interface OpenedLines {
  readonly lines: readonly { readonly read: ReadLine; readonly part: Part }[];
  readonly warnings: readonly Warning[];
}

/**
 * @param options that `checkReading` passed
 * @throws HandlineError where the input is not a score or exceeds a limit
 */
export function openLines(
  input: string | Uint8Array,
  options: LineOptions & Pick<AnnotateOptions, 'language'>,
): OpenedLines {
  const settings = settingsOf(options);
  const { text, root } = openAsPrinted(input, settings.limits, settings.file);
  const { score, warnings } = readScore(root, text, {
    ...settings,
    passesOver: isOurs,
  });
  const built = buildLines(score, settings);
  const clock = new Clock(score.tempo);
  const lines = built.lines.map((line) => {
    const part = score.parts[line.part]!;
    const read: ReadLine = {
      partId: part.id,
      line,
      hand: settings.model[line.hand],
      context: playingContext(line, part, clock),
    };
    return { read, part };
  });
  return { lines, warnings: [...warnings, ...built.warnings] };
}

/** A word of ours as we wrote it: l.h. and r.h. of ours speak of single notes of a chord, which they do not name. */
function isOurs(words: XmlElement): boolean {
  return readToken(words.attribute('font-family'))?.check === checkOf(words.text);
}
