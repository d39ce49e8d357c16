import { heldCost } from '#core/fingering/cost/slice-costs.js';
import type { Sink } from '#core/fingering/cost/terms/term.js';
import { OFFSETS, TERMS } from '#core/fingering/cost/terms/terms.js';
import { intervalBetween } from '#core/fingering/view/interval.js';
import type { SliceView } from '#core/fingering/view/view.js';
import type { Finger } from '#core/score/model.js';
import { HAND, type Sample } from './data.js';

/** Features of many choices, one row a choice: `index[starts[row] ... starts[row + 1]]`. */
export interface Rows {
  readonly starts: Int32Array;
  readonly index: Int32Array;
  readonly value: Float32Array;
}

/** Everything that the likelihood of one slice depends on. */
export interface SliceFeatures {
  readonly origins: number;
  readonly rows: number;
  readonly columns: number;
  readonly slice: Rows;
  readonly step: Rows | undefined;
  readonly chain: Rows | undefined;
  /** mm equivalents that no weight scales: held keys that change fingers. */
  readonly fixed: Float64Array | undefined;
  /** Candidates that agree with the editor; undefined where he printed nothing, or nothing that a hand can do. */
  readonly agrees: Uint8Array | undefined;
}

class RowBuilder {
  private readonly starts: number[] = [0];
  private readonly index: number[] = [];
  private readonly value: number[] = [];

  constructor(private readonly scale: Float64Array) {}

  row(count: (sinkOf: (term: number) => Sink) => void): void {
    count((term) => ({
      add: (feature, value) => {
        const at = OFFSETS[term]! + feature;
        this.index.push(at);
        this.value.push(value * this.scale[at]!);
      },
    }));
    this.starts.push(this.index.length);
  }

  rows(): Rows {
    return {
      starts: Int32Array.from(this.starts),
      index: Int32Array.from(this.index),
      value: Float32Array.from(this.value),
    };
  }
}

const memo = new Map<string, Rows>();

function isSingle(view: SliceView): boolean {
  return view.keys.length === 1 && view.struck[0] === true && view.candidates.length === 5;
}

function remembered(id: string | undefined, make: () => Rows): Rows {
  if (id === undefined) return make();
  let rows = memo.get(id);
  if (!rows) {
    rows = make();
    memo.set(id, rows);
  }
  return rows;
}

/** Features of a sample. `scale` multiplies values by feature, so that all have a like size. */
export function featuresOf({ views, surroundings, digits }: Sample, scale: Float64Array): SliceFeatures[] {
  return views.map((view, at) => {
    const [before, first] = [views[at - 1], views[at - 2]];
    const slices = new RowBuilder(scale);
    for (const { fingers } of view.candidates) {
      slices.row((sinkOf) => {
        TERMS.forEach((term, nth) => {
          term.slice?.(view, fingers, surroundings[at]!, sinkOf(nth), HAND);
        });
      });
    }
    return {
      origins: first?.candidates.length ?? 1,
      rows: before?.candidates.length ?? 1,
      columns: view.candidates.length,
      slice: slices.rows(),
      step: before && stepRows(before, view, scale),
      chain: before && first && chainRows(first, before, view, scale),
      fixed: before && fixedCosts(before, view),
      agrees: agreement(view, digits[at]!),
    };
  });
}

function stepRows(before: SliceView, view: SliceView, scale: Float64Array): Rows {
  const id =
    isSingle(before) && isSingle(view)
      ? `${before.low % 12} ${intervalBetween(before, view)} ${view.pace} ${view.fresh} ${Math.min(before.alternation, view.alternation)} ${view.onBeat} ${before.repeats} ${view.repeats}`
      : undefined;
  return remembered(id, () => {
    const rows = new RowBuilder(scale);
    for (const { fingers: from } of before.candidates) {
      for (const { fingers: to } of view.candidates) {
        rows.row((sinkOf) => {
          TERMS.forEach((term, nth) => {
            term.pair?.(before, view, HAND)?.count(from, to, sinkOf(nth));
          });
        });
      }
    }
    return rows.rows();
  });
}

function chainRows(first: SliceView, before: SliceView, view: SliceView, scale: Float64Array): Rows {
  const single = isSingle(first) && isSingle(before) && isSingle(view);
  return remembered(
    single
      ? `chain ${intervalBetween(first, before)} ${intervalBetween(before, view)} ${before.fresh || view.fresh} ${before.repeats} ${view.repeats} ${view.goesBack}`
      : undefined,
    () => {
      const rows = new RowBuilder(scale);
      for (const { fingers: a } of first.candidates) {
        for (const { fingers: b } of before.candidates) {
          for (const { fingers: c } of view.candidates) {
            rows.row((sinkOf) => {
              TERMS.forEach((term, nth) => {
                term.triple?.(first, before, view)?.count(a, b, c, sinkOf(nth));
              });
            });
          }
        }
      }
      return rows.rows();
    },
  );
}

function fixedCosts(before: SliceView, view: SliceView): Float64Array | undefined {
  if (view.struck.every((struck) => struck)) return undefined;
  const costs = before.candidates.flatMap(({ fingers: from }) =>
    view.candidates.map(({ fingers: to }) => heldCost(before, view, from, to)),
  );
  return Float64Array.from(costs);
}

function agreement(view: SliceView, digits: readonly (readonly Finger[])[]): Uint8Array | undefined {
  if (digits.every((own) => own.length === 0)) return undefined;
  const agrees = Uint8Array.from(view.candidates, ({ fingers }) =>
    fingers.every((finger, at) => digits[at]!.every((digit) => digit === finger)) ? 1 : 0,
  );
  return agrees.includes(1) ? agrees : undefined;
}
