import type { HandModel } from '../../anatomy/hand.js';
import { PerHand } from '../../anatomy/per-hand.js';
import { fingerLine } from '../../fingering/finger.js';
import { intervalBetween, isStep, strideOf } from '../../fingering/view/interval.js';
import type { Line, Slice } from '../../hands/line.js';
import { pitchClass } from '../../keyboard/key-plan.js';
import { fraction } from '../../numeric/fraction.js';
import type { Finger, Hand } from '../../score/model.js';
import { KINDS } from '../measure/kinds.js';
import { realKey, type Scene } from '../measure/scene.js';
import type { Cause } from './cause.js';

/** Semitones of the scales above their tonic: major, harmonic minor. */
const SCALES: readonly (readonly number[])[] = [
  [0, 2, 4, 5, 7, 9, 11],
  [0, 2, 3, 5, 7, 8, 11],
];
/** Notes in one direction before the turn that make a fragment of a scale: fewer lie under the hand in any way. */
const LEAST_NOTES = 4;
/** Notes from the turn back over which the digits must be those of the scale. */
const MOST_NOTES = 8;
const OCTAVE = 12;

/** Finger by pitch class of a scale that runs on, as the search itself fingers it. */
type ScaleFingers = ReadonlyMap<number, Finger>;

const known = new PerHand(() => new Map<string, ScaleFingers>());

/**
 * The digits of a whole scale on a fragment of it that turns before the scale goes on. There is no table of scales: two
 * octaves of each that has the fragment's keys are fingered by the library, as they run on.
 */
export const scaleFingering: Cause = {
  name: 'scale-fingering',
  kinds: KINDS,
  find(scene, at) {
    const run = runTo(scene, at);
    if (run.length < LEAST_NOTES) return undefined;
    const keys = run.map((slice) => realKey(scene.views[slice]!, 0));
    const fingers = run.map((slice) => scene.fingers[slice]?.[0]);
    const isOfScale = scaleFingers(scene.line.hand, scene.hand, keys).some((map) =>
      keys.every((key, nth) => map.get(pitchClass(key)) === fingers[nth]),
    );
    return isOfScale ? { slice: at, finger: fingers.at(-1) as Finger, key: keys.at(-1)! } : undefined;
  },
};

/** The fingers of the scales that have all these keys, as they run on over two octaves. */
export function scaleFingers(hand: Hand, model: HandModel, keys: readonly number[]): readonly ScaleFingers[] {
  const classes = [...new Set(keys.map(pitchClass))];
  const found: ScaleFingers[] = [];
  for (let tonic = 0; tonic < OCTAVE; tonic++) {
    for (const scale of SCALES) {
      if (classes.every((own) => scale.includes((own - tonic + OCTAVE) % OCTAVE)))
        found.push(fingersOf(hand, model, tonic, scale));
    }
  }
  return found;
}

/** The slices of a run by step in one direction that turns at `at`, that one last; empty where nothing turns there. */
function runTo({ views }: Scene, at: number): readonly number[] {
  const way = step(views, at);
  if (way === 0 || step(views, at + 1) !== -way) return [];
  let from = at;
  while (at - from + 1 < MOST_NOTES && step(views, from) === way) from--;
  const run: number[] = [];
  for (let slice = from; slice <= at; slice++) run.push(slice);
  return run;
}

/** Direction of a step by single keys into a slice, 0 for anything else. */
function step(views: Scene['views'], at: number): number {
  const [before, view] = [views[at - 1], views[at]];
  if (before?.keys.length !== 1 || view?.keys.length !== 1 || view.fresh || view.cut) return 0;
  const interval = intervalBetween(before, view);
  return isStep(strideOf(interval)) ? Math.sign(interval) : 0;
}

function fingersOf(hand: Hand, model: HandModel, tonic: number, scale: readonly number[]): ScaleFingers {
  const memo = known.of(model);
  const id = `${hand} ${tonic} ${scale.join()}`;
  let found = memo.get(id);
  if (!found) {
    found = computed(hand, model, tonic, scale);
    memo.set(id, found);
  }
  return found;
}

/** Lowest C of the two octaves, MIDI number, and seconds a note: our choice, a comfortable place and pace. */
const LOW = 48;
const SECONDS = 0.25;

function computed(hand: Hand, model: HandModel, tonic: number, scale: readonly number[]): ScaleFingers {
  const up = [0, OCTAVE].flatMap((octave) => scale.map((step) => LOW + tonic + octave + step));
  const keys = [...up, LOW + tonic + 2 * OCTAVE, ...up.toReversed()];
  const line: Line = { hand, part: 0, slices: keys.map(slice) };
  const { fingering } = fingerLine(line, model);
  const map = new Map<number, Finger>();
  // The octave in the middle, where the scale neither begins nor turns.
  for (let nth = scale.length - 2; nth < 2 * scale.length - 2; nth++)
    map.set(pitchClass(keys[nth]!), fingering.slices[nth]!.struck[0]!);
  return map;
}

function slice(key: number, index: number): Slice {
  return {
    index,
    onset: fraction(index, 2),
    measure: Math.floor(index / 8),
    grace: false,
    struck: [{ key, notes: [], seconds: SECONDS }],
    held: [],
    released: [],
    seconds: index === 0 ? 0 : SECONDS,
    free: 0,
    phraseStart: index === 0,
    onBeat: index % 2 === 0,
    rolled: false,
  };
}
