import type { Line } from '../hands/line.js';
import type { Crossing, MotionPlan } from '../motion/plan.js';
import type { Density, Language, Layer } from '../options/options.js';
import { crossingKey, crossingRuns, handCues } from './crossing-cues.js';
import { type DepthMove, depthMoves } from './depth-cues.js';
import { CUE_KEYS, CUE_LAYERS, type CueKey, DEFAULT_LAYERS } from './keys.js';
import { carryCues, contourCues, type LayerCues } from './layer-cues.js';
import { runsWithRoom } from './placing/crowds.js';
import { cuesWithRoom, GAP, lettersInto, longestLine, Room } from './placing/room.js';
import { readableCues } from './readable.js';
import { withoutRepeated } from './repeated.js';
import { rollCues } from './roll-cues.js';
import { BETWEEN, cueWording, fullWording, type Wording } from './wording.js';

/** One text at one slice of a hand. */
export interface Cue {
  readonly slice: number;
  /** The cues that the text is made of, in its order. */
  readonly keys: readonly CueKey[];
  readonly text: string;
  /** Last slice of a move in depth that begins here; the slice itself where it takes one note. */
  readonly end: number;
  /** True where dashes lead up to that slice: the move is of three notes or more, and there is room for them. */
  readonly dashes: boolean;
}

export interface CueContext {
  /** Default depth and crossing. */
  readonly layers?: readonly Layer[];
  /** Default essential. */
  readonly density?: Density;
  readonly language: Language;
  /** Own texts by cue key. */
  readonly wording?: Readonly<Record<string, string>>;
  /** Measures with which pages begin, ascending; by default a page is taken to have 24. */
  readonly pages?: readonly number[];
  /** Crossings of the two hands, by slice of this line. */
  readonly handCrossings?: readonly (Crossing | undefined)[];
}

/** Cues of one text at most; more are not read while playing (from memory). */
const MOST_KEYS = 2;

/** Notes behind its first from which on a move has dashes: three notes or more in all. */
const LEAST_DASHES = 2;

/** Cues that a crossing makes needless: it brings the wrist level and turns the forearm. */
const IMPLIED_BY_CROSSING: readonly CueKey[] = ['wrist-level', 'wrist-rises', 'turn-thumb', 'turn-fifth'];

/**
 * The cues of one hand, at most one text a slice: of depth the fewest that lead the reader along the plan, with dashes up
 * to the note that a longer move serves, of the other layers what a density tells of and has room beside them.
 *
 * @throws HandlineError OPTION for a bad `wording`
 */
export function planCues(line: Line, plan: MotionPlan, context: CueContext): readonly Cue[] {
  const { density = 'essential', layers = DEFAULT_LAYERS, language } = context;
  const moves = layers.includes('depth') ? depthMoves(line, plan, density) : [];
  const short = cueWording(language, context.wording);
  const keys = keysBySlice(line, plan, short, density, layers, moves, context.handCrossings);
  const full = fullWording(language, context.wording);
  const writer = new CueWriter(line, short, full, context.pages ?? []);
  const ends = new Map<number, number>();
  for (const { slice, end } of moves) ends.set(slice, end);
  const cues: Cue[] = [];
  // Letters of the text before that reach beyond the slice.
  let letters = 0;
  for (let slice = 0; slice < keys.length; slice++) {
    letters = Math.max(0, letters - lettersInto(line, slice));
    const own = keys[slice]!;
    if (own.length === 0) continue;
    const text = writer.text(slice, own);
    const end = ends.get(slice) ?? slice;
    const isClear = letters === 0;
    letters = Math.max(letters, longestLine(text) + GAP);
    const until = dashesEnd(line, slice, end);
    const dashes = isClear && until - slice >= LEAST_DASHES && hasRoom(line, keys, slice, until, letters);
    cues.push({ slice, keys: own, text, end, dashes });
  }
  return cues;
}

/**
 * Where dashes of a move end: at the slice that it serves, or at the barline, behind which a system may break and leave a dash
 * alone. The cue's own slice where less than half of the move lies before the barline.
 */
function dashesEnd({ slices }: Line, from: number, to: number): number {
  const { measure } = slices[from]!;
  if (slices[to]!.measure === measure) return to;
  let behind = from + 1;
  while (slices[behind]!.measure === measure) behind++;
  return 2 * (behind - from) < to - from ? from : behind;
}

/** True where dashes can be drawn behind the letters of a text, and no other text stands in their way. */
function hasRoom(
  line: Line,
  keys: readonly (readonly CueKey[])[],
  from: number,
  to: number,
  letters: number,
): boolean {
  // Programs print what stands at a grace note at its main note.
  if (line.slices[from]!.grace || line.slices[to]!.grace) return false;
  let left = letters;
  for (let at = from + 1; at <= to; at++) {
    if (at < to && keys[at]!.length > 0) return false;
    left -= lettersInto(line, at);
  }
  return left <= 0;
}

/** Cues of every slice, those first that count most, cut to what can be read, then in the order of print. */
function keysBySlice(
  line: Line,
  plan: MotionPlan,
  wording: Wording,
  density: Density,
  layers: readonly Layer[],
  moves: readonly DepthMove[],
  handCrossings: readonly (Crossing | undefined)[] = [],
): readonly (readonly CueKey[])[] {
  const all: CueKey[][] = [];
  for (let slice = 0; slice < plan.slices.length; slice++) all.push([]);
  for (const { slice, key } of moves) all[slice]!.push(key);
  if (layers.includes('crossing')) {
    addCues(all, handCues(line, handCrossings, density));
    const crossings: (CueKey | undefined)[] = [];
    for (const { crossing } of plan.slices) crossings.push(crossing && crossingKey(crossing));
    for (const run of runsWithRoom(line, wording, crossingRuns(line, plan, density), crossings, all))
      for (const at of run) all[at]!.push(crossings[at]!);
  }
  const others: LayerCues[] = [];
  if (layers.includes('roll')) others.push(rollCues(line, plan));
  if (layers.includes('carry')) others.push(carryCues(plan));
  if (layers.includes('contour')) others.push(contourCues(plan));
  // A layer alone has all room.
  const room = layers.length > 1 && others.length > 0 ? new Room(line, wording, all) : undefined;
  for (const cues of others) {
    const told = density === 'every' ? cues : withoutRepeated(line, plan, readableCues(line, cues));
    addCues(all, room ? cuesWithRoom(line, room, told) : told);
  }
  return all.map(inPrint);
}

function addCues(all: readonly CueKey[][], cues: LayerCues): void {
  for (let at = 0; at < cues.length; at++) if (cues[at] !== undefined) all[at]!.push(cues[at]!);
}

function inPrint(all: readonly CueKey[]): readonly CueKey[] {
  if (all.length < 2) return all;
  const distinct = all.some(isCrossing) ? all.filter(isNotImplied) : all;
  return distinct.slice(0, MOST_KEYS).sort(inOrder);
}

function isCrossing(key: CueKey): boolean {
  return CUE_LAYERS[key] === 'crossing';
}

function isNotImplied(key: CueKey): boolean {
  return !IMPLIED_BY_CROSSING.includes(key);
}

function inOrder(a: CueKey, b: CueKey): number {
  return CUE_KEYS.indexOf(a) - CUE_KEYS.indexOf(b);
}

/** About a page, where the file has no page breaks, and a gap after which a reader has forgotten, in measures: from memory. */
const PAGE_MEASURES = 24;
const LONG_GAP = 8;

/** Writes the texts one after the other: now and then the fuller wording, in between the short one. */
class CueWriter {
  /** By way: measure in which it was last said in full, and at all. */
  readonly #full = new Map<string, number>();
  readonly #said = new Map<string, number>();

  constructor(
    private readonly line: Line,
    private readonly short: Wording,
    private readonly full: Partial<Wording>,
    private readonly pages: readonly number[],
  ) {}

  text(slice: number, keys: readonly CueKey[]): string {
    const words: string[] = [];
    for (const key of keys) words.push(this.#word(key, slice));
    return words.join(BETWEEN);
  }

  #word(key: CueKey, slice: number): string {
    const way = WAYS[key];
    if (way === undefined) return this.short[key];
    const { measure } = this.line.slices[slice]!;
    const full = this.full[key] ?? this.short[key];
    const isOld = this.#isOnPageBefore(this.#full.get(way), measure);
    const isForgotten = measure - (this.#said.get(way) ?? Number.NEGATIVE_INFINITY) > LONG_GAP;
    this.#said.set(way, measure);
    if (!isOld && !isForgotten) return this.short[key];
    this.#full.set(way, measure);
    return full;
  }

  #isOnPageBefore(last: number | undefined, measure: number): boolean {
    if (last === undefined) return true;
    if (this.pages.length === 0) return measure - last >= PAGE_MEASURES;
    return this.pages.some((start) => last < start && start <= measure);
  }
}

/** Cues that one fuller wording explains: a crossing its own, in and out the forearm's, a turn that to or away from the thumb. */
const WAYS: Readonly<Partial<Record<CueKey, string>>> = {
  'thumb-passes': 'thumb',
  'over-thumb': 'over',
  in: 'in',
  'far-in': 'in',
  lean: 'in',
  out: 'out',
  'far-out': 'out',
  'turn-thumb': 'turn',
  'turn-fifth': 'turn',
};
