import type { Score } from '../../../score/model.js';
import type { CueMark } from '../edit.js';
import { noteOf, sidesOf } from './sides.js';
import type { Spacing } from './spacing.js';
import { GAP, widthOf } from './widths.js';

interface Text {
  readonly cue: CueMark;
  readonly left: number;
  /** With the gap behind it. */
  readonly right: number;
  readonly order: number;
  readonly lines: number;
}

/** Texts before one and behind it that may lie on it: from memory. */
const NEAREST = 6;

/**
 * Empty lines of cues that verovio would push on another. It sets texts in the order of the file, moves each away from the nearest that
 * it lies on, and does not look whether it now lies on one further off. That happens where it lies on two, and
 *
 * - one of them stands further right, as in a voice before its own; or
 * - the first of them was moved away from one before it, and the second slips under that.
 */
export function linesOverOthers(
  score: Score,
  cues: readonly CueMark[],
  spacing: Spacing,
): ReadonlyMap<CueMark, number> {
  const lines = new Map<CueMark, number>();
  for (const side of sidesOf(score, cues)) {
    const texts = side.map((at): Text => {
      const cue = cues[at]!;
      const note = noteOf(score, cue);
      const { left, right } = spacing.extentOf(note, widthOf(cue.text), cue.isCentred);
      return { cue, left, right: right + GAP, order: note.span.start, lines: cue.text.split('\n').length };
    });
    for (const [at, text] of texts.entries()) {
      const near = texts.slice(Math.max(0, at - NEAREST), at + NEAREST);
      const free = linesOver(text, near);
      if (free > 0) lines.set(text.cue, free);
    }
  }
  return lines;
}

function linesOver(text: Text, near: readonly Text[]): number {
  const under = near.filter((one) => isUnder(one, text));
  const [before, behind] = [
    under.filter((one) => one.left < text.left),
    under.filter((one) => one.left >= text.left),
  ];
  if (before.length > 0 && behind.length > 0) return Math.max(...under.map(({ lines }) => lines));
  let most = 0;
  for (const first of before) {
    for (const second of before) {
      if (!isUnder(first, second) || first.left >= second.left) continue;
      const moving = near.filter(
        (one) => one.left < first.left && isUnder(one, first) && !isUnder(one, second),
      );
      for (const { lines } of moving) most = Math.max(most, lines + first.lines - second.lines);
    }
  }
  return most;
}

/** Whether the file has one text before another on which it lies. */
function isUnder(one: Text, other: Text): boolean {
  return one.order < other.order && one.right > other.left && one.left < other.right;
}
