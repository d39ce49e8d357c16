import type { Line } from '../hands/line.js';
import type { Crossing, MotionPlan } from '../motion/plan.js';
import type { Density, Language, Layer } from '../options/options.js';
import type { Measure } from '../score/model.js';
import { type Candidate, cueCandidates, weightierFirst } from './candidates.js';
import { thinOut } from './density.js';
import { CUE_KEYS, CUE_LAYERS, type CueKey, DEFAULT_LAYERS } from './keys.js';
import { BETWEEN, cueWording } from './wording.js';

/** One text at one slice of a hand. */
export interface Cue {
  readonly slice: number;
  /** The cues that the text is made of, in its order. */
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

/** Cues of one text at most; more are not read while playing (from memory). */
const MOST_KEYS = 2;

/** Cues that a crossing makes needless: it brings the wrist level and turns the forearm, and outweighs a lean. */
const IMPLIED_BY_CROSSING: readonly CueKey[] = [
  'lean',
  'wrist-level',
  'wrist-rises',
  'turn-thumb',
  'turn-fifth',
];

/**
 * The cues of one hand, at most one text a slice.
 *
 * @throws HandlineError OPTION for a bad `wording`
 */
export function planCues(line: Line, plan: MotionPlan, context: CueContext): readonly Cue[] {
  const wording = cueWording(context.language, context.wording);
  const layers = context.layers ?? DEFAULT_LAYERS;
  const merged: (readonly Candidate[])[] = [];
  for (const all of cueCandidates(line, plan, context.handCrossings)) {
    merged.push(merge(ofLayers(all, layers)));
  }
  const kept = thinOut(line, plan, merged, context.density ?? 'essential', context.measures);
  const cues: Cue[] = [];
  for (let slice = 0; slice < kept.length; slice++) {
    if (kept[slice]!.length > 0) cues.push(cueOf(slice, kept[slice]!, wording));
  }
  return cues;
}

function ofLayers(all: readonly Candidate[], layers: readonly Layer[]): Candidate[] {
  const wanted: Candidate[] = [];
  for (const cue of all) if (layers.includes(CUE_LAYERS[cue.key])) wanted.push(cue);
  return wanted;
}

/** The weightiest cues of one slice, without those that a crossing implies. */
function merge(all: readonly Candidate[]): readonly Candidate[] {
  if (all.length < 2) return all;
  const distinct = all.some(isCrossing) ? all.filter(isNotImplied) : all;
  return [...distinct].sort(weightierFirst).slice(0, MOST_KEYS);
}

function isCrossing({ key }: Candidate): boolean {
  return CUE_LAYERS[key] === 'crossing';
}

function isNotImplied({ key }: Candidate): boolean {
  return !IMPLIED_BY_CROSSING.includes(key);
}

function cueOf(slice: number, all: readonly Candidate[], wording: Readonly<Record<CueKey, string>>): Cue {
  const keys: CueKey[] = [];
  const words: string[] = [];
  for (const key of CUE_KEYS) {
    if (!hasKey(all, key)) continue;
    keys.push(key);
    words.push(wording[key]);
  }
  return { slice, keys, text: words.join(BETWEEN) };
}

function hasKey(all: readonly Candidate[], key: CueKey): boolean {
  for (const cue of all) if (cue.key === key) return true;
  return false;
}
