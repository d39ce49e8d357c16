import { LINE, type Placed } from '#core/musicxml/marks/places/rows.js';

/**
 * Heights of texts as verovio gives them, in steps from the staff to their innermost lines: each text goes outside what lies beside
 * it and outside those before it in the file that it would lie on, one after the other. Texts before the system's first are not there.
 */
export function placedHeights(texts: readonly Placed[], extents: readonly number[], first = 0, stretch = 1) {
  const heights: number[] = [];
  const inFile = [...texts.keys()].slice(first).sort((a, b) => texts[a]!.order - texts[b]!.order);
  for (const [nth, at] of inFile.entries()) {
    let height = extents[at]!;
    let isMoved = true;
    while (isMoved) {
      isMoved = false;
      for (const other of inFile.slice(0, nth)) {
        const [one, next] = other < at ? [other, at] : [at, other];
        if (!reachesOver(texts[one]!, texts[next]!, stretch)) continue;
        const there = heights[other]!;
        if (height >= there + LINE * texts[other]!.lines || there >= height + LINE * texts[at]!.lines)
          continue;
        height = there + LINE * texts[other]!.lines;
        isMoved = true;
      }
    }
    heights[at] = height;
  }
  return heights;
}

export function reachesOver(one: Placed, next: Placed, stretch = 1): boolean {
  return one.right - one.left > stretch * (next.left - one.left);
}

/** Lifts each row to the furthest of its first lines. */
export function liftedHeights(
  texts: readonly Placed[],
  own: readonly number[],
  rows: readonly (readonly number[])[],
): number[] {
  const heights = [...own];
  for (const row of rows) {
    const there = row.filter((at) => own[at] !== undefined);
    const furthest = Math.max(...there.map((at) => own[at]! + texts[at]!.rise));
    for (const at of there) heights[at] = furthest - texts[at]!.rise;
  }
  return heights;
}

/** Whether two texts are on each other at these heights. */
export function collide(texts: readonly Placed[], heights: readonly number[], stretch = 1): boolean {
  return texts.some((one, at) => {
    if (heights[at] === undefined) return false;
    return texts.some((other, nth) => {
      if (nth <= at || heights[nth] === undefined || !reachesOver(one, other, stretch)) return false;
      const [low, high] = [heights[at]!, heights[nth]!];
      return low + LINE * one.lines > high && high + LINE * other.lines > low;
    });
  });
}

/** How the page may turn out: where each text stands before rows are lifted, and how far the system is stretched. */
interface Page {
  readonly own: readonly number[];
  readonly stretch: number;
}

/**
 * All pages that a file cannot tell from each other: the system begins and ends anywhere, is stretched as far as makes a
 * difference to any two texts, and what lies beside texts reaches `off` steps more or less than estimated.
 */
export function pagesOf(texts: readonly Placed[], off: number): Page[] {
  const stretches = new Set([1]);
  for (const [at, one] of texts.entries())
    for (const other of texts.slice(at + 1)) {
      const least = (one.right - one.left) / (other.left - one.left);
      if (least > 1) stretches.add(least).add(least - 1e-6);
    }
  const pages: Page[] = [];
  const seen = new Set<string>();
  for (let signs = 0; signs < 2 ** texts.length; signs++) {
    const extents = texts.map(({ extent }, at) => Math.max(0, extent + ((signs >> at) & 1 ? off : -off)));
    for (const stretch of stretches) {
      for (let first = 0; first < texts.length; first++) {
        const whole = placedHeights(texts, extents, first, stretch);
        for (let end = first + 2; end <= texts.length; end++) {
          const own = whole.slice(0, end);
          const name = `${stretch} ${first} ${own.slice(first)}`;
          if (seen.has(name)) continue;
          seen.add(name);
          pages.push({ own, stretch });
        }
      }
    }
  }
  return pages;
}

export function isSafe(
  texts: readonly Placed[],
  rows: readonly (readonly number[])[],
  pages: readonly Page[],
) {
  return pages.every(({ own, stretch }) => !collide(texts, liftedHeights(texts, own, rows), stretch));
}

/** Neighbours in one row, of all ways to cut texts into rows that are safe on every page the most. */
export function mostLevel(texts: readonly Placed[], pages: readonly Page[]): number {
  let most = 0;
  for (let joints = 0; joints < 2 ** (texts.length - 1); joints++) {
    const level = texts.slice(1).filter((_, at) => (joints >> at) & 1).length;
    if (level <= most) continue;
    const rows: number[][] = [[0]];
    for (let at = 1; at < texts.length; at++)
      if ((joints >> (at - 1)) & 1) rows.at(-1)!.push(at);
      else rows.push([at]);
    const canStand = rows.every(
      (row) => row.length < 2 || row.every((at) => texts[at]!.isFree && isClear(texts, row, at)),
    );
    if (canStand && isSafe(texts, rows, pages)) most = level;
  }
  return most;
}

function isClear(texts: readonly Placed[], row: readonly number[], at: number): boolean {
  return row.every((before) => before >= at || !reachesOver(texts[before]!, texts[at]!));
}
