import { type Reach, type Reaches, reachesOf } from '../../../anatomy/reach.js';
import { SEMITONE_WIDTH } from '../../../keyboard/key-plan.js';
import type { Finger } from '../../../score/model.js';
import { blocksOf } from './blocks.js';
import { areSingle, type PairCount, type Sink, type Term } from './term.js';

/** Features of a finger pair: mm over relaxed, strain, mm under relaxed, mm under comfortable. */
const OVER = 0;
const STRAIN = 1;
const UNDER = 2;
const UNDER_COMFORTABLE = 3;
const KINDS = 4;
const FINGER_PAIRS = 10;
/** First feature of neighbours in time. */
const IN_TIME = FINGER_PAIRS * KINDS;
/**
 * mm beyond its practical limit up to which a pair without the thumb is stretched in time: fingers that lie so near each other
 * are a poor choice for a leap. Our choice: works held out agree best with one semitone to two.
 */
const BEYOND = SEMITONE_WIDTH;
/** By lower and higher finger, from 0. */
const PAIR = [
  [0, 0, 1, 2, 3],
  [0, 0, 4, 5, 6],
  [1, 4, 0, 7, 8],
  [2, 5, 7, 0, 9],
  [3, 6, 8, 9, 0],
] as const;

const strainOf = (pair: number): number => pair * KINDS + STRAIN;
/** Features of strain of keys held together, with the thumb or between 2 and 5, and of the neighbouring fingers. */
export const THUMB_STRAINS: readonly number[] = [0, 1, 2, 3, 6].map(strainOf);
export const INNER_STRAINS: readonly number[] = [4, 5, 7, 8, 9].map(strainOf);
/** The same of neighbours in time. */
export const STRAINS_IN_TIME: readonly number[] = [...THUMB_STRAINS, ...INNER_STRAINS].map(
  (feature) => IN_TIME + feature,
);
/** Of these, 1 and 4, 2 and 5: what takes a broken octave or a seventh apart from 1 and 5. */
export const WIDE_STRAINS_IN_TIME: readonly number[] = [2, 6].map((pair) => IN_TIME + strainOf(pair));

/** Of these, 2 and 3, 2 and 4, 3 and 5, 4 and 5: what no hand spreads over a wide interval, such as 2 and 4 over an octave. */
export const NARROW_STRAINS_IN_TIME: readonly number[] = [4, 5, 8, 9].map((pair) => IN_TIME + strainOf(pair));

function count(reach: Reach, mm: number, base: number, sink: Sink): void {
  const { maxRelaxed, maxPractical, minRelaxed, minComfortable } = reach;
  if (mm > maxRelaxed) {
    const share = (mm - maxRelaxed) / (maxPractical - maxRelaxed);
    sink.add(base + OVER, mm - maxRelaxed);
    sink.add(base + STRAIN, share ** 4);
  }
  if (mm < minRelaxed) sink.add(base + UNDER, minRelaxed - mm);
  if (mm < minComfortable) sink.add(base + UNDER_COMFORTABLE, minComfortable - mm);
}

/**
 * How far finger pairs are stretched beyond or squeezed below what is relaxed. Strain is the fourth power of the share of
 * the way from relaxed to the practical limit, so that it rises steeply towards the limit, at every span. For keys held
 * together, then for neighbours in time; there a pair with the thumb is stretched no further than it reaches, any other a
 * semitone further: the hand leaps. Where fingers change on a key repeated fast, they gather over it, and the hand goes on
 * from there without a stretch.
 */
export const stretch: Term = {
  name: 'stretch',
  blocks: blocksOf({
    reach: {
      'together, in time': 2,
      '12 13 14 15 23 24 25 34 35 45': FINGER_PAIRS,
      'mm over relaxed, strain, mm under relaxed, mm under comfortable': KINDS,
    },
  }),
  slice(view, fingers, _surroundings, sink, hand) {
    if (fingers.length < 2) return;
    const reaches = reachesOf(hand);
    for (let low = 0; low < fingers.length; low++) {
      for (let high = low + 1; high < fingers.length; high++) {
        const a = fingers[low]!;
        const b = fingers[high]!;
        if (a === b) continue;
        const mm = view.x[high]! - view.x[low]!;
        count(reaches.between(a, b), a < b ? mm : -mm, PAIR[a - 1]![b - 1]! * KINDS, sink);
      }
    }
  },
  pair(before, view, hand) {
    if (view.fresh || before.repeats || view.repeats || !areSingle(before, view)) return undefined;
    return new StepStretch(view.x[0]! - before.x[0]!, reachesOf(hand));
  },
};

class StepStretch implements PairCount {
  /** @param mm from the first key to the second, up positive */
  constructor(
    private readonly mm: number,
    private readonly reaches: Reaches,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const a = from[0]!;
    const b = to[0]!;
    if (a === b) return;
    const reach = this.reaches.between(a, b);
    const base = IN_TIME + PAIR[a - 1]![b - 1]! * KINDS;
    const most = reach.maxPractical + (a > 1 && b > 1 ? BEYOND : 0);
    count(reach, Math.min(a < b ? this.mm : -this.mm, most), base, sink);
  }
}
