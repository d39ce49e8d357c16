import type { Box } from './shapes.js';

/** A letter's width in our texts, in verovio's units: the mean over all cues of 24 scores. */
const LETTER = 165;
/** Heights that differ by no more are one. */
const LEVEL = 20;
const TEXTS = new Set(['dir', 'tempo', 'dynam']);

/** The room between two boxes, from left to right; negative where they overlap. */
export function between(one: Box, other: Box): number {
  return Math.max(other.left - one.right, one.left - other.right);
}

/**
 * Pairs of texts at one height, one of ours and what begins behind it, that do not overlap and are nearer to each other than a
 * letter; what is drawn of several pieces, such as a tempo mark, counts once. What the score has before a text of ours has no
 * blanks behind it that could keep the two apart.
 */
export function nearPairs(boxes: readonly Box[]): [Box, Box][] {
  const texts = boxes.filter(({ kind, text }) => TEXTS.has(kind) && text !== DASH);
  return texts
    .filter(({ ours }) => ours)
    .flatMap((one) =>
      texts
        .filter((other) => other.element !== one.element && other.left > one.left)
        .filter((other) => Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > LEVEL)
        .filter((other) => between(one, other) >= -LEVEL && between(one, other) < LETTER)
        .filter((other, at, near) => near.findIndex(({ element }) => element === other.element) === at)
        .map((other): [Box, Box] => [one, other]),
    );
}

const DASH = '–';

/** Neighbours among our texts on one side of one staff of a system, and how many of them are level by their first or last lines. */
export function neighbours(boxes: readonly Box[]): { readonly all: number; readonly level: number } {
  const rows = new Map<string, Map<number, Box[]>>();
  for (const box of boxes) {
    if (!box.ours || box.text === DASH) continue;
    const key = `${box.system} ${box.side}`;
    const row = rows.get(key) ?? new Map<number, Box[]>();
    rows.set(key, row);
    row.set(box.element, [...(row.get(box.element) ?? []), box]);
  }
  let [all, level] = [0, 0];
  for (const row of rows.values()) {
    const texts = [...row.values()].sort((a, b) => a[0]!.left - b[0]!.left);
    for (let at = 1; at < texts.length; at++) {
      all++;
      if ([0, -1].some((line) => isLevel(texts[at - 1]!.at(line)!, texts[at]!.at(line)!))) level++;
    }
  }
  return { all, level };
}

function isLevel(one: Box, other: Box): boolean {
  return Math.abs(one.top - other.top) <= LEVEL;
}

/** Dashes of ours in a system in which their text does not stand. */
export function loneDashes(boxes: readonly Box[]): number {
  const ours = boxes.filter((box) => box.ours);
  const withText = new Set(ours.filter(({ text }) => text !== DASH).map(({ element }) => element));
  return ours.filter(({ text, element }) => text === DASH && !withText.has(element)).length;
}
