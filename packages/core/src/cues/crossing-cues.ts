import { isFreshStart } from '../hands/fresh-start.js';
import type { Line, Slice } from '../hands/line.js';
import type { Crossing, MotionPlan } from '../motion/plan.js';
import type { Density } from '../options/options.js';
import type { CueKey } from './keys.js';
import type { LayerCues } from './layer-cues.js';
import { FARTHEST_SLICES, isReadable } from './readable.js';
import { moveInto, Remembered } from './repeated.js';

/** Difficulty in mm equivalents from which `demanding` tells of a run: a thumb to a black key, or behind 5. From memory. */
const HARD = 16;

/** Notes from one crossing of a run to the next at least, so that each has room for its text: scales and arpeggios. */
const ROOM = 3;

const CROSSING_KEYS = {
  'thumb-passing': 'thumb-passes',
  'finger-over': 'over-thumb',
  'hand-over': 'hand-over',
  'hand-under': 'hand-under',
} as const satisfies Record<Crossing['kind'], CueKey>;

export function crossingKey({ kind }: Crossing): CueKey {
  return CROSSING_KEYS[kind];
}

/**
 * The slices whose thumb crossing a density tells of, by run. A run, crossings of one kind in one direction on a connected line, is
 * told of evenly: of each crossing, so that the second octave of a scale is marked as the first, or of the first alone where
 * they come both too close and too quick to read; and not again while the same run keeps coming back.
 */
export function crossingRuns(line: Line, plan: MotionPlan, density: Density): readonly (readonly number[])[] {
  const { slices } = plan;
  const runs = runsOf(line, slices);
  if (density === 'every') return runs;
  const told = new Remembered();
  const printed: (readonly number[])[] = [];
  for (const run of runs) {
    const id = run.map((at) => moveInto(plan, at)).join();
    if (told.comesBack(id, line.slices[run[0]!]!.measure)) continue;
    if (density === 'demanding' && !run.some((at) => slices[at]!.crossing!.difficulty >= HARD)) continue;
    printed.push(hasRoom(run) || isReadable(line, run) ? run : run.slice(0, 1));
  }
  return printed;
}

function hasRoom(run: readonly number[]): boolean {
  for (let nth = 1; nth < run.length; nth++) if (run[nth]! - run[nth - 1]! < ROOM) return false;
  return true;
}

/** The cues of hand over hand: every one, or the first of those that follow each other closely. */
export function handCues(
  line: Line,
  crossings: readonly (Crossing | undefined)[],
  density: Density,
): LayerCues {
  const told = new Remembered();
  const cues: (CueKey | undefined)[] = [];
  for (let at = 0; at < crossings.length; at++) {
    const key = crossings[at] && crossingKey(crossings[at]!);
    const again = key !== undefined && told.comesBack(key, line.slices[at]!.measure);
    cues.push(again && density !== 'every' ? undefined : key);
  }
  return cues;
}

/** Crossings of single notes alone are told of: from and to several keys the hand is carried as a whole. */
function isSingle({ struck }: Slice): boolean {
  return struck.length === 1;
}

/**
 * Whether a crossing only takes the one before it back: the same finger returns to the key that it has just left, as 1 behind 2 in
 * 1 2 1. The hand has not moved on, and the finger knows its way. Where a run begins so, it is told of evenly.
 */
function isReturn({ slices: struck }: Line, slices: MotionPlan['slices'], at: number): boolean {
  if (at < 2 || !slices[at - 1]!.crossing || !isSingle(struck[at - 2]!)) return false;
  if (isFreshStart(struck[at]!) || isFreshStart(struck[at - 1]!)) return false;
  const [now, then] = [slices[at]!.fingers[0]!, slices[at - 2]!.fingers[0]!];
  return now.key === then.key && now.finger === then.finger;
}

function runsOf(line: Line, slices: MotionPlan['slices']): readonly (readonly number[])[] {
  const runs: number[][] = [];
  let run: number[] = [];
  for (let at = 0; at < slices.length; at++) {
    if (isFreshStart(line.slices[at]!)) run = [];
    const { crossing } = slices[at]!;
    if (!crossing || !isSingle(line.slices[at]!) || !isSingle(line.slices[at - 1]!)) continue;
    const last = run.at(-1);
    const before = last === undefined ? undefined : slices[last]!.crossing!;
    const goes = before?.kind === crossing.kind && before.direction === crossing.direction;
    if (last !== undefined && goes && at - last <= FARTHEST_SLICES) run.push(at);
    else {
      run = [at];
      runs.push(run);
    }
  }
  return runs.filter((own) => own.length > 1 || !isReturn(line, slices, own[0]!));
}
