import type { Finger } from '../../../score/model.js';
import { intervalBetween, STRIDES, strideOf } from '../../view/interval.js';
import type { SliceView } from '../../view/view.js';
import { blocksOf, startsOf } from '../terms/blocks.js';
import type { Sink, Term, TripleCount } from '../terms/term.js';
import { FINGER_PAIRS, FINGER_TRIPLES, INTERVALS, intervalIndex, pairOf } from '../terms/term.js';

const BLOCKS = blocksOf({
  'first to third': { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  directions: { fingers: FINGER_TRIPLES, directions: 9 },
  strides: { fingers: FINGER_TRIPLES, 'first stride': STRIDES, 'second stride': STRIDES },
  'first to third, highest keys': { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  'first to third, lowest keys': { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  'directions, highest keys': { fingers: FINGER_TRIPLES, directions: 9 },
  'directions, lowest keys': { fingers: FINGER_TRIPLES, directions: 9 },
});
const [SKIP, CHAIN, STRIDE_CHAIN, HIGH, LOW, HIGH_CHAIN, LOW_CHAIN] = startsOf(BLOCKS) as [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

function tripleOf(a: Finger, b: Finger, c: Finger): number {
  return pairOf(a, b) * 5 + c - 1;
}

/** The two directions, 0 ... 8. */
function turnOf(first: number, second: number, third: number): number {
  return (Math.sign(second - first) + 1) * 3 + Math.sign(third - second) + 1;
}

/** Features of thumb, 2 and thumb again in one direction: two notes between crossings. */
export const GROUPS_OF_TWO: readonly number[] = [-1, 1].map(
  (direction) => CHAIN + tripleOf(1, 2, 1) * 9 + turnOf(0, direction, 2 * direction),
);

/**
 * Habit for three slices in a row: first and third finger by their interval; the three fingers by the two
 * directions and by the two strides; for chords by their highest and by their lowest keys.
 */
export const chain: Term = {
  name: 'habit: chain',
  blocks: BLOCKS,
  triple(first, second, third) {
    return new Chains(first, second, third);
  },
};

class Chains implements TripleCount {
  readonly #skip: number;
  readonly #highSkip: number;
  readonly #strides: number;
  readonly #low: number;
  readonly #high: number;

  constructor(first: SliceView, second: SliceView, third: SliceView) {
    this.#skip = intervalIndex(third.low - first.low);
    this.#highSkip = intervalIndex(third.high - first.high);
    this.#strides =
      strideOf(intervalBetween(first, second)) * STRIDES + strideOf(intervalBetween(second, third));
    this.#low = turnOf(first.low, second.low, third.low);
    this.#high = turnOf(first.high, second.high, third.high);
  }

  count(a: readonly Finger[], b: readonly Finger[], c: readonly Finger[], sink: Sink): void {
    if (a.length === 0 || b.length === 0 || c.length === 0) return;
    const lowA = a[0]!;
    const lowB = b[0]!;
    const lowC = c[0]!;
    const lowest = tripleOf(lowA, lowB, lowC);
    if (a.length === 1 && b.length === 1 && c.length === 1) {
      sink.add(SKIP + pairOf(lowA, lowC) * INTERVALS + this.#skip, 1);
      sink.add(CHAIN + lowest * 9 + this.#low, 1);
      sink.add(STRIDE_CHAIN + lowest * STRIDES * STRIDES + this.#strides, 1);
      return;
    }
    const highA = a[a.length - 1]!;
    const highB = b[b.length - 1]!;
    const highC = c[c.length - 1]!;
    sink.add(HIGH + pairOf(highA, highC) * INTERVALS + this.#highSkip, 1);
    sink.add(LOW + pairOf(lowA, lowC) * INTERVALS + this.#skip, 1);
    sink.add(HIGH_CHAIN + tripleOf(highA, highB, highC) * 9 + this.#high, 1);
    sink.add(LOW_CHAIN + lowest * 9 + this.#low, 1);
  }
}
