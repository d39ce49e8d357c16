import type { Score } from '../../../score/model.js';
import type { CueMark } from '../edit.js';
import { noteOf, sidesOf } from './sides.js';
import type { Spacing } from './spacing.js';
import { BLANKS_WIDTH, GAP, hasBlanks, widthOf } from './widths.js';

/** In front of a line, as wide as a letter; programs keep it. */
const BLANK = '\u00a0';
const BLANKS_BEHIND = /[^\S\n]+$/gmu;
const LINE_STARTS = /^/gmu;

/**
 * The cues as they are written, for the sake of barlines, as far as they have blanks. verovio keeps a measure in one system with the
 * next where a text reaches to the first note behind the barline, blanks included, and breaks no system within a run of such measures:
 * it presses them together, or leaves one alone before them (docs/cues.md).
 *
 * So the last text of a measure that would reach so far has no blanks behind it; what comes near it there has one in front instead.
 * Where it reaches so far without them, its middle stands at the note, if that is enough.
 */
export function cuesAtBarlines(score: Score, cues: readonly CueMark[], spacing: Spacing): readonly CueMark[] {
  const written = [...cues];
  const rightOf = (at: number): number => {
    const { text, isCentred } = written[at]!;
    return spacing.extentOf(noteOf(score, written[at]!), widthOf(text), isCentred).right;
  };
  for (const all of sidesOf(score, cues)) {
    const side = all.filter((at) => hasBlanks(cues[at]!.text));
    for (const [nth, at] of side.entries()) {
      const own = noteOf(score, cues[at]!);
      const next = side[nth + 1];
      const behind = next === undefined ? undefined : noteOf(score, cues[next]!);
      if (behind?.measure === own.measure) continue;
      const left = spacing.placeOf(own);
      const width = widthOf(cues[at]!.text);
      const end = spacing.endOf(own.measure);
      if (left + width + BLANKS_WIDTH <= end) continue;
      const isCentred = left + width > end && left + width / 2 <= end;
      const text = written[at]!.text.replaceAll(BLANKS_BEHIND, '');
      written[at] = { ...written[at]!, text, ...(isCentred && { isCentred }) };
      if (behind === undefined || spacing.placeOf(behind) >= rightOf(at) + GAP) continue;
      written[next!] = { ...written[next!]!, text: written[next!]!.text.replaceAll(LINE_STARTS, BLANK) };
    }
  }
  return written;
}
