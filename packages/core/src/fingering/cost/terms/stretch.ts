import type { HandModel } from '../../../anatomy/hand.js';
import { type Reach, reachBetween } from '../../../anatomy/reach.js';
import type { Finger } from '../../../score/model.js';
import { areSingle, type PairCount, type Sink, type Term } from './term.js';

function strain(
  { maxRelaxed, maxComfortable, minRelaxed, minComfortable }: Reach,
  mm: number,
  base: number,
  sink: Sink,
): void {
  if (mm > maxRelaxed) sink.add(base, mm - maxRelaxed);
  if (mm > maxComfortable) sink.add(base + 1, mm - maxComfortable);
  if (mm < minRelaxed) sink.add(base + 2, minRelaxed - mm);
  if (mm < minComfortable) sink.add(base + 3, minComfortable - mm);
}

/**
 * mm by which finger pairs are stretched beyond or squeezed below their relaxed and comfortable reach. Features: over
 * relaxed, over comfortable, under relaxed, under comfortable; first for keys held together, then for neighbours in
 * time. Beyond its practical reach a pair is stretched no further: from one key to the next the hand leaps.
 */
export const stretch: Term = {
  name: 'stretch',
  size: 8,
  slice(view, fingers, _outlook, sink, hand) {
    for (let low = 0; low < fingers.length; low++) {
      for (let high = low + 1; high < fingers.length; high++) {
        if (fingers[low] === fingers[high]) continue;
        const [a, b, mm] = [fingers[low]!, fingers[high]!, view.x[high]! - view.x[low]!];
        strain(reachBetween(hand, a, b), a < b ? mm : -mm, 0, sink);
      }
    }
  },
  pair(before, view, hand) {
    if (view.fresh || !areSingle(before, view)) return undefined;
    return new StepStretch(view.x[0]! - before.x[0]!, hand);
  },
};

class StepStretch implements PairCount {
  /** @param mm from the first key to the second, up positive */
  constructor(
    private readonly mm: number,
    private readonly hand: HandModel,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const [a, b] = [from[0]!, to[0]!];
    if (a === b) return;
    const span = reachBetween(this.hand, a, b);
    strain(span, Math.min(a < b ? this.mm : -this.mm, span.maxPractical), 4, sink);
  }
}
