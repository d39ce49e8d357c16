import type { Line } from '../hands/line.js';
import type { Crossing, MotionPlan } from '../motion/plan.js';
import type { Density, Language, Layer } from '../options.js';
import type { Measure } from '../score/model.js';
import { type Candidate, cueCandidates } from './candidates.js';
import { thinOut } from './density.js';
import { CUE_KEYS, CUE_LAYERS, type CueKey, DEFAULT_LAYERS } from './keys.js';
import { cueWording } from './wording.js';

/** One text at one slice of a hand. */
export interface Cue {
  readonly slice: number;
  /** The cues that the text says, in its order. */
  readonly keys: readonly CueKey[];
  readonly text: string;
}

export interface CueContext {
  readonly measures: readonly Measure[];
  /** Default depth and crossing. */
  readonly layers?: readonly Layer[];
  /** Default essential. */
  readonly density?: Density;
  readonly language: Language;
  /** Own texts by cue key. */
  readonly wording?: Readonly<Record<string, string>>;
  /** Crossings of the two hands, by slice of this line. */
  readonly handCrossings?: readonly (Crossing | undefined)[];
}

/** More than two words at one place are not read while playing. */
const MOST_KEYS = 2;

/** What these cues say already: a crossing brings the wrist level and turns the forearm, and outweighs a lean. */
const SAID_BY_CROSSING: readonly CueKey[] = [
  'lean',
  'wrist-level',
  'wrist-rises',
  'turn-thumb',
  'turn-fifth',
];

/**
 * The words that a player needs, at most one text a slice.
 *
 * @throws HandlineError OPTION for a bad `wording`
 */
export function planCues(line: Line, plan: MotionPlan, context: CueContext): readonly Cue[] {
  const wording = cueWording(context.language, context.wording);
  const layers = context.layers ?? DEFAULT_LAYERS;
  const wanted = cueCandidates(line, plan, context.handCrossings).map((all) =>
    all.filter((cue) => layers.includes(CUE_LAYERS[cue.key])),
  );
  const merged = wanted.map(merge);
  const kept = thinOut(line, plan, merged, context.density ?? 'essential', context.measures);
  return kept.flatMap((cues, slice) => {
    if (cues.length === 0) return [];
    const keys = CUE_KEYS.filter((key) => cues.some((cue) => cue.key === key));
    return [{ slice, keys, text: keys.map((key) => wording[key]).join(', ') }];
  });
}

/** The weightiest cues of one slice, without those that say the same move again. */
function merge(all: readonly Candidate[]): readonly Candidate[] {
  if (all.length < 2) return all;
  const crossing = all.some((cue) => CUE_LAYERS[cue.key] === 'crossing');
  const distinct = crossing ? all.filter((cue) => !SAID_BY_CROSSING.includes(cue.key)) : all;
  return [...distinct].sort((a, b) => b.weight - a.weight).slice(0, MOST_KEYS);
}
