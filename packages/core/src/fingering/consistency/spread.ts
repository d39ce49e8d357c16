import type { Choice } from '../cost/choice.js';
import type { Objective } from '../cost/objective.js';
import type { Figure } from './figures/figure.js';
import { Trials } from './trials.js';

/** Ways to finger a figure that are tried at all its occurrences, the most frequent first. */
const MOST_WAYS = 2;

/**
 * A fingering that costs less in all, inconsistencies included, by changes that no slice makes alone, because the first
 * occurrence of a figure to change pays for being unlike the others: where a figure is fingered in different ways, the
 * most frequent are tried at all its occurrences at once, widest figures first, and kept where it costs less.
 *
 * @param choice the fingering to start from
 * @returns the path, or nothing where no change costs less
 */
export function spread(
  objective: Objective,
  figures: readonly Figure[],
  choice: Choice,
): readonly number[] | undefined {
  const trials = new Trials(objective, figures, choice);
  for (const nth of widestFirst(figures)) {
    if (trials.isAlike(nth)) continue;
    const figure = figures[nth]!;
    for (const way of waysOf(trials, figure)) tryWay(trials, figure, way);
  }
  return trials.gained ? trials.path : undefined;
}

/** The figures by their index; of equal widths in their order. */
function widestFirst(figures: readonly Figure[]): readonly number[] {
  const byWidth: number[][] = [];
  for (let nth = 0; nth < figures.length; nth++) {
    const { before, after } = figures[nth]!;
    byWidth[before + after] ??= [];
    byWidth[before + after]!.push(nth);
  }
  return byWidth.reverse().flat();
}

/** The ways in which a figure is fingered, as the `name`s of candidates, slice by slice; the most frequent first. */
function waysOf(trials: Trials, { slices, before, after }: Figure): readonly (readonly number[])[] {
  const ways = new Map<string, { readonly names: readonly number[]; count: number }>();
  for (const at of slices) {
    const names: number[] = [];
    for (let slice = at - before; slice <= at + after; slice++) names.push(trials.nameAt(slice));
    const id = names.join();
    const way = ways.get(id);
    if (way) way.count++;
    else ways.set(id, { names, count: 1 });
  }
  const frequent = [...ways.values()].sort((one, other) => other.count - one.count);
  return frequent.slice(0, MOST_WAYS).map(({ names }) => names);
}

/** Fingers all occurrences in one way; of those that overlap the first. */
function tryWay(trials: Trials, { slices, before }: Figure, way: readonly number[]): void {
  trials.begin();
  let free = 0;
  for (const at of slices) {
    const start = at - before;
    if (start < free) continue;
    for (let nth = 0; nth < way.length; nth++) trials.change(start + nth, way[nth]!);
    free = start + way.length;
  }
  trials.end();
}
