import type { HandModel } from '../../anatomy/hand.js';
import { reach } from '../../anatomy/reach.js';
import type { Finger } from '../../score/model.js';
import type { Sink, Term } from './term.js';

function strain(hand: HandModel, a: Finger, b: Finger, way: number, base: number, sink: Sink): void {
  const span = a < b ? reach(hand, a, b) : reach(hand, b, a);
  const mm = a < b ? way : -way;
  if (mm > span.maxRelaxed) sink(base, mm - span.maxRelaxed);
  if (mm > span.maxComfortable) sink(base + 1, mm - span.maxComfortable);
  if (mm < span.minRelaxed) sink(base + 2, span.minRelaxed - mm);
  if (mm < span.minComfortable) sink(base + 3, span.minComfortable - mm);
}

/**
 * mm by which finger pairs are stretched beyond or squeezed below their relaxed and comfortable reach. Features: over
 * relaxed, over comfortable, under relaxed, under comfortable; first for keys held together, then for neighbours in
 * time.
 */
export const stretch: Term = {
  name: 'stretch',
  size: 8,
  slice(view, fingers, _outlook, sink, hand) {
    for (let low = 0; low < fingers.length; low++) {
      for (let high = low + 1; high < fingers.length; high++) {
        if (fingers[low] === fingers[high]) continue;
        strain(hand, fingers[low]!, fingers[high]!, view.x[high]! - view.x[low]!, 0, sink);
      }
    }
  },
  pair(before, view, from, to, sink, hand) {
    if (view.fresh || from.length !== 1 || to.length !== 1 || from[0] === to[0]) return;
    strain(hand, from[0]!, to[0]!, view.x[0]! - before.x[0]!, 4, sink);
  },
};
