import type { Line, Slice } from '../hands/line.js';
import type { FingerDepth, MotionPlan, SliceMotion } from '../motion/plan.js';
import { toNumber } from '../numeric/fraction.js';
import type { Density } from '../options/options.js';
import { beatNumber } from '../score/beat.js';
import type { Measure } from '../score/model.js';
import { type Candidate, weightierFirst } from './candidates.js';
import type { CueKey } from './keys.js';

/** Least weight of a cue that is printed, by density; all numbers here from memory. */
const LEAST_WEIGHT = { every: 0, essential: 8, demanding: 20 } as const satisfies Record<Density, number>;
/** Seconds within which a player reads one text at most: quick music has fewer texts than beats. */
const READING_SECONDS = 0.6;
/** Texts of one hand for each beat or measure on average at most, but always one: with the other hand's, one for each. */
const HAND_SHARE = 0.5;
/** Measures within which a move that comes back on the same keys with the same fingers is not cued again. */
const REMEMBERED_MEASURES = 2;

/**
 * Leaves out what a density does not print. `every` keeps all. `essential` keeps the weightiest text of each beat,
 * `demanding` that of each measure, none of them within `READING_SECONDS` of a weightier one or soon after the same move;
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
  const strong = withoutRepeated(line, plan, strongCues(cues, LEAST_WEIGHT[density]));
  const kept: SliceText[] = [];
  let time = 0;
  let lastTime = Number.NEGATIVE_INFINITY;
  let lastSpace = '';
  for (let at = 0; at < line.slices.length; at++) {
    const slice = line.slices[at]!;
    time += slice.seconds;
    if (strong[at]!.length === 0) continue;
    const space = spaceOf(slice, density, measures);
    const text = { at, weight: weightOf(strong[at]!) };
    if (space !== lastSpace && time - lastTime >= READING_SECONDS) kept.push(text);
    else if (text.weight > kept.at(-1)!.weight) kept[kept.length - 1] = text;
    else continue;
    lastTime = time;
    lastSpace = space;
  }
  const most = Math.max(1, Math.floor(HAND_SHARE * countSpaces(line, density, measures)));
  const printed = new Array<readonly Candidate[]>(strong.length).fill([]);
  for (const { at } of kept.sort(weightierFirst).slice(0, most)) printed[at] = strong[at]!;
  return printed;
}

/** Weight of all that one slice would print. */
interface SliceText {
  readonly at: number;
  readonly weight: number;
}

function strongCues(cues: readonly (readonly Candidate[])[], least: number): Candidate[][] {
  const strong: Candidate[][] = [];
  for (const all of cues) {
    const own: Candidate[] = [];
    for (const cue of all) if (cue.weight >= least) own.push(cue);
    strong.push(own);
  }
  return strong;
}

function weightOf(cues: readonly Candidate[]): number {
  let sum = 0;
  for (const { weight } of cues) sum += weight;
  return sum;
}

/** The measure, or the beat of it, that one text may stand in. */
function spaceOf({ measure, onset }: Slice, density: Density, measures: readonly Measure[]): string {
  return density === 'demanding' ? `${measure}` : `${measure}:${beatNumber(measures[measure]!, onset)}`;
}

/** Number of beats, or of measures, in all measures in which the line plays. */
function countSpaces(line: Line, density: Density, measures: readonly Measure[]): number {
  const played = new Set(line.slices.map(measureOf));
  if (density === 'demanding') return played.size;
  let beats = 0;
  for (const index of played) {
    const { length, beat } = measures[index]!;
    beats += Math.max(1, toNumber(length) / toNumber(beat));
  }
  return beats;
}

function measureOf({ measure }: Slice): number {
  return measure;
}

/** Leaves out the same cues for the same move, as long as it keeps coming back. */
function withoutRepeated(
  line: Line,
  plan: MotionPlan,
  cues: readonly (readonly Candidate[])[],
): readonly (readonly Candidate[])[] {
  const lastMeasure = new Map<string, number>();
  const fresh = [...cues];
  for (let at = 0; at < cues.length; at++) {
    if (cues[at]!.length === 0) continue;
    const keys = cues[at]!.map(keyOf);
    const id = `${keys} from ${grip(plan.slices[at - 1])} to ${grip(plan.slices[at])}`;
    const { measure } = line.slices[at]!;
    const last = lastMeasure.get(id);
    lastMeasure.set(id, measure);
    if (last !== undefined && measure - last <= REMEMBERED_MEASURES) fresh[at] = [];
  }
  return fresh;
}

function keyOf({ key }: Candidate): CueKey {
  return key;
}

/** The keys under the fingers, as text. */
function grip(slice: SliceMotion | undefined): string {
  return slice ? slice.fingers.map(fingerOnKey).join() : 'the start';
}

function fingerOnKey({ finger, key }: FingerDepth): string {
  return `${finger}:${key}`;
}
