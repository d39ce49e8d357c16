import type { Line } from '../hands/line.js';
import type { MotionPlan, SliceMotion } from '../motion/plan.js';
import type { Density } from '../options.js';
import { compare, subtract, toNumber } from '../score/fraction.js';
import type { Measure } from '../score/model.js';
import type { Candidate } from './candidates.js';

/** Least weight of a cue that is printed, by density; all numbers here from memory. */
const LEAST_WEIGHT = { every: 0, essential: 8, demanding: 20 } as const satisfies Record<Density, number>;
/** Seconds within which a player reads one text at most: quick music has fewer words than beats. */
const READING_SECONDS = 0.6;
/** Texts of one hand for each beat or measure on average, at most (one in any case): with the other hand's one for each. */
const HAND_SHARE = 0.5;
/** Measures within which a move that comes back on the same keys with the same fingers is not told again. */
const REMEMBERED_MEASURES = 2;

/**
 * Leaves out what a density does not print. `every` keeps all. `essential` keeps the weightiest text of each beat,
 * `demanding` that of each measure, none of them within a reader's time of a weightier one or soon after the same move;
 * and where both hands would still have more than one a beat, or a measure, on average, the lightest go.
 */
export function thinOut(
  line: Line,
  plan: MotionPlan,
  cues: readonly (readonly Candidate[])[],
  density: Density,
  measures: readonly Measure[],
): readonly (readonly Candidate[])[] {
  if (density === 'every') return cues;
  const strong = forgetTold(
    line,
    plan,
    cues.map((all) => all.filter((cue) => cue.weight >= LEAST_WEIGHT[density])),
  );
  const kept: number[] = [];
  let time = 0;
  let lastTime = Number.NEGATIVE_INFINITY;
  let lastSpace = '';
  line.slices.forEach((slice, at) => {
    time += slice.seconds;
    if (strong[at]!.length === 0) return;
    const space =
      density === 'demanding' ? `${slice.measure}` : `${slice.measure}:${beat(line, at, measures)}`;
    if (space !== lastSpace && time - lastTime >= READING_SECONDS) kept.push(at);
    else if (weight(strong[at]!) > weight(strong[kept.at(-1)!]!)) kept[kept.length - 1] = at;
    else return;
    lastTime = time;
    lastSpace = space;
  });
  const most = Math.max(1, Math.floor(HAND_SHARE * spaces(line, density, measures)));
  const printed = new Set([...kept].sort((a, b) => weight(strong[b]!) - weight(strong[a]!)).slice(0, most));
  return strong.map((all, at) => (printed.has(at) ? all : []));
}

function weight(cues: readonly Candidate[]): number {
  return cues.reduce((sum, cue) => sum + cue.weight, 0);
}

/** Beats, or measures, in which the line plays. */
function spaces(line: Line, density: Density, measures: readonly Measure[]): number {
  const played = [...new Set(line.slices.map((slice) => slice.measure))];
  if (density === 'demanding') return played.length;
  return played.reduce((sum, index) => {
    const measure = measures[index];
    return sum + (measure ? Math.max(1, toNumber(measure.length) / toNumber(measure.beat)) : 1);
  }, 0);
}

/** Number of the beat within its measure, from 0. */
function beat(line: Line, at: number, measures: readonly Measure[]): number {
  const slice = line.slices[at]!;
  const measure = measures[slice.measure];
  if (!measure || compare(measure.beat, { num: 0, den: 1 }) <= 0) return 0;
  return Math.floor(toNumber(subtract(slice.onset, measure.start)) / toNumber(measure.beat));
}

/** Leaves out the same cues for the same move, as long as it keeps coming back. */
function forgetTold(
  line: Line,
  plan: MotionPlan,
  cues: readonly (readonly Candidate[])[],
): readonly (readonly Candidate[])[] {
  const lastMeasure = new Map<string, number>();
  return cues.map((all, at) => {
    if (all.length === 0) return all;
    const keys = all.map((cue) => cue.key);
    const id = `${keys} from ${grip(plan.slices[at - 1])} to ${grip(plan.slices[at])}`;
    const { measure } = line.slices[at]!;
    const last = lastMeasure.get(id);
    lastMeasure.set(id, measure);
    return last !== undefined && measure - last <= REMEMBERED_MEASURES ? [] : all;
  });
}

/** The keys under the fingers, as text. */
function grip(slice: SliceMotion | undefined): string {
  return slice ? slice.fingers.map(({ finger, key }) => `${finger}:${key}`).join() : 'the start';
}
