import type { Bias } from './search.js';
import type { SliceView } from './view.js';

/** mm equivalents that a slice may pay for being fingered unlike the same figure elsewhere. */
export const LIKENESS = 12;
/** Slices before and after that make up the figure around a slice. */
const BEFORE = 2;
const AFTER = 2;
/** A digit that the file gives counts as this many chosen ones. */
const GIVEN_VOTES = 100;

/** The same string for slices whose surroundings have the same intervals, key colours, rhythm and held keys. */
export function figures(views: readonly SliceView[]): readonly string[] {
  const shapes = views.map((view) => {
    const keys = view.keys.map(
      (key, at) => `${key - view.low}${view.black[at] ? 'b' : ''}${view.struck[at] ? '' : 'h'}`,
    );
    return keys.join(',');
  });
  return views.map((view, at) => {
    const parts: string[] = [];
    for (let other = at - BEFORE; other <= at + AFTER; other++) {
      const neighbour = views[other];
      if (!neighbour) parts.push('-');
      else {
        const time = other > at - BEFORE ? `${neighbour.pace}${neighbour.fresh ? 'f' : ''}` : '';
        parts.push(`${neighbour.low - view.low}:${shapes[other]}:${time}`);
      }
    }
    return parts.join('|');
  });
}

/** Slices of the same figure, two or more each. */
export function likeSlices(views: readonly SliceView[]): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>();
  figures(views).forEach((figure, at) => {
    const group = groups.get(figure);
    if (group) group.push(at);
    else groups.set(figure, [at]);
  });
  return [...groups.values()].filter((group) => group.length > 1);
}

/**
 * The fingers of every figure: those that most of its slices chose, digits given by the file counting most, of equal
 * ones the earliest.
 */
export function figureModels(
  views: readonly SliceView[],
  groups: readonly (readonly number[])[],
  path: readonly number[],
): readonly string[] {
  return groups.map((group) => {
    const votes = new Map<string, number>();
    for (const at of group) {
      const fingers = fingersAt(views[at]!, path[at]!);
      votes.set(fingers, (votes.get(fingers) ?? 0) + (views[at]!.given ? GIVEN_VOTES : 1));
    }
    let [best, most] = ['', 0];
    for (const [fingers, count] of votes) if (count > most) [best, most] = [fingers, count];
    return best;
  });
}

/** What every candidate pays for being unlike the model of its figure. */
export function likenessBias(
  views: readonly SliceView[],
  groups: readonly (readonly number[])[],
  models: readonly string[],
): Bias {
  const bias = new Array<Float64Array | undefined>(views.length);
  groups.forEach((group, nth) => {
    for (const at of group) bias[at] = unlike(views[at]!, models[nth]!);
  });
  return bias;
}

export function fingersAt(view: SliceView, choice: number): string {
  return view.candidates[choice]!.fingers.join('');
}

function unlike(view: SliceView, reference: string): Float64Array {
  return Float64Array.from(view.candidates, ({ fingers }) => (fingers.join('') === reference ? 0 : LIKENESS));
}
