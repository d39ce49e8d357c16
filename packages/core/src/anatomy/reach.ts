import { SEMITONE_WIDTH } from '../keyboard/key-plan.js';
import type { Finger } from '../score/model.js';
import type { HandModel } from './hand.js';
import { PerHand } from './per-hand.js';

/** Sideways distances from the lower to the higher finger of a pair, in mm; negative where the fingers are crossed. */
export interface Reach {
  readonly minPractical: number;
  readonly minComfortable: number;
  readonly minRelaxed: number;
  readonly maxRelaxed: number;
  readonly maxComfortable: number;
  readonly maxPractical: number;
}

/**
 * Spans in semitones, right hand, ascending: Parncutt, Sloboda, Clarke, Raekallio and Desain, An ergonomic model of
 * keyboard fingering for melodic fragments, Music Perception 14 (1997), table of finger-pair spans (from memory).
 */
const SEMITONES: Readonly<Record<string, readonly number[]>> = {
  '12': [-5, -3, 1, 5, 8, 10],
  '13': [-4, -2, 3, 7, 10, 12],
  '14': [-3, -1, 5, 9, 12, 14],
  '15': [-1, 1, 7, 10, 13, 15],
  '23': [1, 1, 1, 2, 3, 5],
  '24': [1, 1, 3, 4, 5, 7],
  '25': [2, 2, 5, 6, 8, 10],
  '34': [1, 1, 1, 2, 2, 4],
  '35': [1, 1, 3, 4, 5, 7],
  '45': [1, 1, 1, 2, 3, 5],
};

/** More than any finger. */
const FINGERS = 6;

/** Reaches of all finger pairs of one hand. */
export class Reaches {
  /** `[a * FINGERS + b]`, in either order. */
  readonly #pairs: Reach[] = [];

  constructor(hand: HandModel) {
    for (let low = 1; low < FINGERS; low++) {
      for (let high = low + 1; high < FINGERS; high++) {
        const own = measured(hand, low, high);
        this.#pairs[low * FINGERS + high] = own;
        this.#pairs[high * FINGERS + low] = own;
      }
    }
  }

  /** Of two different fingers in either order. */
  between(a: Finger, b: Finger): Reach {
    return this.#pairs[a * FINGERS + b]!;
  }
}

const tables = new PerHand((hand) => new Reaches(hand));

/** To be asked for once where many pairs follow. */
export function reachesOf(hand: HandModel): Reaches {
  return tables.of(hand);
}

/**
 * Reach of two different fingers, in either order, for this hand: maxima scale with the hand; minima do not, because a
 * larger hand folds as far as a small one.
 */
export function reach(hand: HandModel, a: Finger, b: Finger): Reach {
  return reachesOf(hand).between(a, b);
}

function measured(hand: HandModel, low: number, high: number): Reach {
  const row = SEMITONES[`${low}${high}`];
  if (!row) throw new RangeError(`no finger pair ${low}-${high}`);
  const mm = (nth: number, scale: number): number => row[nth]! * SEMITONE_WIDTH * scale;
  return {
    minPractical: mm(0, 1),
    minComfortable: mm(1, 1),
    minRelaxed: mm(2, 1),
    maxRelaxed: mm(3, hand.scale),
    maxComfortable: mm(4, hand.scale),
    maxPractical: mm(5, hand.scale),
  };
}
