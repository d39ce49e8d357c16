import type { HandModel } from '../anatomy/hand.js';
import type { Finger } from '../score/model.js';
import type { Outlook, Sink } from './terms/term.js';
import { OFFSETS, TERMS } from './terms/terms.js';
import type { SliceView } from './view.js';

/** Cost in mm equivalents of a held key that changes its finger silently, and of one that has no time for it. */
const SUBSTITUTION = 60;
const NO_TIME = 2000;
/** Seconds that a silent substitution takes at least (from memory). */
const SUBSTITUTION_SECONDS = 0.35;

const ALL: readonly Finger[] = [1, 2, 3, 4, 5];

/** Cost of slices, of steps between two and of chains of three, without depth; single keys are remembered by pattern. */
export class CostTable {
  readonly #steps = new Map<number, Float64Array>();
  readonly #chains = new Map<number, Float64Array>();
  readonly #sink: Sink;
  #base = 0;
  #sum = 0;

  /** @param weights mm equivalents by feature, `FEATURES` of them */
  constructor(
    private readonly hand: HandModel,
    weights: Float64Array,
  ) {
    this.#sink = (feature, value) => {
      this.#sum += weights[this.#base + feature]! * value;
    };
  }

  slice(view: SliceView, fingers: readonly Finger[], outlook: Outlook): number {
    return this.#total((term) => term.slice?.(view, fingers, outlook, this.#sink, this.hand));
  }

  /** Costs of all steps: `[from * view.candidates.length + to]`. */
  steps(before: SliceView, view: SliceView, out: Float64Array): void {
    const [rows, columns] = [before.candidates.length, view.candidates.length];
    const plain = isSingle(before) && isSingle(view) ? this.#plainSteps(before, view) : undefined;
    for (let a = 0; a < rows; a++) {
      for (let b = 0; b < columns; b++) {
        const [from, to] = [before.candidates[a]!.fingers, view.candidates[b]!.fingers];
        out[a * columns + b] = plain
          ? plain[(from[0]! - 1) * 5 + to[0]! - 1]!
          : this.pair(before, view, from, to) + heldCost(before, view, from, to);
      }
    }
  }

  /** Costs of all chains: `[(a * second.candidates.length + b) * third.candidates.length + c]`. */
  chains(first: SliceView, second: SliceView, third: SliceView, out: Float64Array): void {
    const single = isSingle(first) && isSingle(second) && isSingle(third);
    const plain = single ? this.#plainChains(first, second, third) : undefined;
    let at = 0;
    for (const { fingers: a } of first.candidates) {
      for (const { fingers: b } of second.candidates) {
        for (const { fingers: c } of third.candidates) {
          out[at++] = plain
            ? plain[((a[0]! - 1) * 5 + b[0]! - 1) * 5 + c[0]! - 1]!
            : this.triple(first, second, third, a, b, c);
        }
      }
    }
  }

  pair(before: SliceView, view: SliceView, from: readonly Finger[], to: readonly Finger[]): number {
    return this.#total((term) => term.pair?.(before, view, from, to, this.#sink, this.hand));
  }

  triple(
    first: SliceView,
    second: SliceView,
    third: SliceView,
    a: readonly Finger[],
    b: readonly Finger[],
    c: readonly Finger[],
  ): number {
    return this.#total((term) => term.triple?.(first, second, third, a, b, c, this.#sink, this.hand));
  }

  #total(count: (term: (typeof TERMS)[number]) => void): number {
    this.#sum = 0;
    for (let at = 0; at < TERMS.length; at++) {
      this.#base = OFFSETS[at]!;
      count(TERMS[at]!);
    }
    return this.#sum;
  }

  /** What single steps depend on: the key left within the octave, the interval, the pace. */
  #plainSteps(before: SliceView, view: SliceView): Float64Array {
    const id =
      ((before.low % 12) * 256 + view.low - before.low + 128) * 8 + view.pace * 2 + (view.fresh ? 1 : 0);
    let costs = this.#steps.get(id);
    if (!costs) {
      costs = new Float64Array(25);
      for (const a of ALL)
        for (const b of ALL) costs[(a - 1) * 5 + b - 1] = this.pair(before, view, [a], [b]);
      this.#steps.set(id, costs);
    }
    return costs;
  }

  #plainChains(first: SliceView, second: SliceView, third: SliceView): Float64Array {
    const id = (second.low - first.low + 128) * 256 + third.low - second.low + 128;
    let costs = this.#chains.get(id);
    if (!costs) {
      costs = new Float64Array(125);
      let at = 0;
      for (const a of ALL)
        for (const b of ALL)
          for (const c of ALL) costs[at++] = this.triple(first, second, third, [a], [b], [c]);
      this.#chains.set(id, costs);
    }
    return costs;
  }
}

function isSingle(view: SliceView): boolean {
  return view.keys.length === 1 && view.struck[0]!;
}

/** A held key keeps its finger, or changes it silently where there is time. */
export function heldCost(
  before: SliceView,
  view: SliceView,
  from: readonly Finger[],
  to: readonly Finger[],
): number {
  let cost = 0;
  for (let at = 0; at < to.length; at++) {
    if (view.struck[at]) continue;
    const was = before.keys.indexOf(view.keys[at]!);
    if (was < 0 || from[was] === to[at]) continue;
    cost += view.seconds >= SUBSTITUTION_SECONDS && !from.includes(to[at]!) ? SUBSTITUTION : NO_TIME;
  }
  return cost;
}
