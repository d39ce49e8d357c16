import type { Finger } from '../../../../score/model.js';
import { blocksOf } from '../blocks.js';
import type { PairCount, Sink, Term } from '../term.js';

/**
 * mm equivalents a note that two fingers cost in a long trill, by the lower and the higher of them. The order is common
 * practice (1-3 and 2-3 trill best, then 1-2; 3-4 tires, 4-5 soon); the numbers are our choice.
 */
const TIRING: Readonly<Record<number, number>> = {
  12: 2,
  13: 0,
  14: 6,
  15: 12,
  23: 0,
  24: 4,
  25: 10,
  34: 14,
  35: 7,
  45: 24,
};
/** Share of that by `Alternation`: a few notes tire nobody. */
const SHARES = [0, 0.3, 1] as const;
/** One finger that plays both keys of a trill. */
const BOTH = 40;

/** What a trill costs two fingers by its length. */
export const endurance: Term = {
  name: 'endurance',
  blocks: blocksOf({ trill: { 'mm equivalents': 1 } }),
  stated: [1],
  pair(before, view) {
    const share = SHARES[Math.min(before.alternation, view.alternation)]!;
    if (share === 0) return undefined;
    return new Trill(share, before.struck.indexOf(true), view.struck.indexOf(true));
  },
};

class Trill implements PairCount {
  constructor(
    private readonly share: number,
    private readonly was: number,
    private readonly is: number,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const a = from[this.was]!;
    const b = to[this.is]!;
    const cost = a === b ? BOTH : TIRING[a < b ? a * 10 + b : b * 10 + a]!;
    sink.add(0, cost * this.share);
  }
}
