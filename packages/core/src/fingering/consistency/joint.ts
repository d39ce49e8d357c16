import { insertByCost } from '../search/k-best.js';
import type { Walk } from '../search/prefix.js';
import type { SliceView } from '../view/view.js';
import type { Figure } from './figures.js';
import { unlikeness } from './models.js';
import { LikenessTally } from './tally.js';

/** One more candidate behind a beginning. */
interface Way {
  readonly candidate: number;
  /** Cost of the beginning by depth, likeness left out. */
  readonly reached: Float64Array;
  /** What no fingering that begins so costs less than. */
  readonly bound: number;
}

/** Fingerings found, cheapest first, likeness included: of equal ones the one found first. */
class Best {
  readonly #found: { readonly path: readonly number[]; readonly cost: number }[] = [];
  readonly #seen = new Set<string>();

  constructor(private readonly count: number) {}

  /** A further fingering must cost less than this. */
  get limit(): number {
    return this.#found.length < this.count ? Number.POSITIVE_INFINITY : this.#found.at(-1)!.cost;
  }

  get paths(): readonly (readonly number[])[] {
    return this.#found.map(({ path }) => path);
  }

  enter(path: readonly number[], cost: number): void {
    const name = path.join();
    if (cost >= this.limit || this.#seen.has(name)) return;
    this.#seen.add(name);
    insertByCost(this.#found, { path: [...path], cost }, this.count);
  }
}

/**
 * The `count` cheapest fingerings, likeness included, cheapest first. Every beginning is followed that could still lead
 * to one of them: its own cost, the least cost of what comes after, and what its figures are unlike already add up to
 * less than the dearest found. Exact where `most` beginnings suffice, else the cheapest seen until then.
 *
 * @param known fingerings to start from; the cheaper they are, the fewer beginnings are followed
 */
export function cheapestAlike(
  views: readonly SliceView[],
  walk: Walk,
  figures: readonly Figure[],
  known: readonly (readonly number[])[],
  count: number,
  most: number,
): readonly (readonly number[])[] {
  const best = new Best(count);
  const enter = (path: readonly number[], reached: Float64Array): void => {
    best.enter(path, Math.min(...reached) + unlikeness(views, figures, path));
  };
  for (const path of known) enter(path, walk.through(path));
  const tally = new LikenessTally(views, figures);
  const path: number[] = [];
  const waysOn = (depths: Float64Array): Way[] => {
    const at = path.length;
    const ways = views[at]!.candidates.map((_, candidate) => {
      const reached = walk.extend(path, at, candidate, depths);
      tally.enter(at, candidate);
      const bound = walk.least(path, at, candidate, reached) + tally.paid;
      tally.leave(at, candidate);
      return { candidate, reached, bound };
    });
    return ways.sort((a, b) => a.bound - b.bound);
  };
  const levels = views.length > 0 ? [waysOn(walk.start)] : [];
  for (let followed = 0; levels.length > 0 && followed < most; ) {
    if (path.length === levels.length) tally.leave(path.length - 1, path.pop()!);
    const way = levels.at(-1)!.shift();
    if (!way || way.bound >= best.limit) {
      levels.pop();
      continue;
    }
    followed++;
    tally.enter(path.length, way.candidate);
    path.push(way.candidate);
    if (path.length === views.length) enter(path, way.reached);
    else levels.push(waysOn(way.reached));
  }
  return best.paths;
}
