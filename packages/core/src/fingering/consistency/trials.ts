import type { Choice } from '../cost/choice.js';
import type { Objective } from '../cost/objective.js';
import type { SliceView } from '../view/view.js';
import type { Figure } from './figures/figure.js';
import { InconsistencyTally } from './tally.js';
import { Windows } from './windows.js';

/** A fingering that is changed at many slices at once, wherever that costs less, inconsistencies included. */
export class Trials {
  readonly path: number[];
  /** True where a change was kept. */
  gained = false;
  readonly #views: readonly SliceView[];
  readonly #tally: InconsistencyTally;
  readonly #windows: Windows;
  /** The slices that a trial changes, ascending, with their candidates before and after. */
  readonly #changed: number[] = [];
  readonly #was: number[] = [];
  readonly #next: number[] = [];

  constructor(objective: Objective, figures: readonly Figure[], { path, depths }: Choice) {
    this.path = [...path];
    this.#views = objective.views;
    this.#tally = new InconsistencyTally(objective.views, figures);
    for (let at = 0; at < path.length; at++) this.#tally.enter(at, path[at]!);
    this.#windows = new Windows(objective, [...depths]);
  }

  /** Whether all slices of a figure have the same fingers. */
  isAlike(figure: number): boolean {
    return this.#tally.isAlike(figure);
  }

  /** The fingers of a slice, as the `name` of its candidate. */
  nameAt(at: number): number {
    return this.#views[at]!.candidates[this.path[at]!]!.name;
  }

  /** Begins a trial without changes. */
  begin(): void {
    this.#changed.length = 0;
    this.#was.length = 0;
    this.#next.length = 0;
  }

  /** Adds a change, where the slice has such a candidate; slices come in ascending order. */
  change(at: number, name: number): void {
    const was = this.path[at]!;
    const { candidates } = this.#views[at]!;
    if (candidates[was]!.name === name) return;
    for (let next = 0; next < candidates.length; next++) {
      if (candidates[next]!.name !== name) continue;
      this.#changed.push(at);
      this.#was.push(was);
      this.#next.push(next);
      return;
    }
  }

  /** Ends a trial: its changes are kept if they cost less in all. */
  end(): void {
    if (this.#changed.length === 0) return;
    this.#windows.around(this.#changed);
    const cost = this.#cost();
    this.#take(this.#next);
    if (this.#cost() < cost) {
      this.#windows.settle();
      this.gained = true;
    } else this.#take(this.#was);
  }

  #cost(): number {
    return this.#windows.cost(this.path) + this.#tally.paid;
  }

  #take(candidates: readonly number[]): void {
    for (let nth = 0; nth < candidates.length; nth++) {
      const at = this.#changed[nth]!;
      this.#tally.leave(at, this.path[at]!);
      this.#tally.enter(at, candidates[nth]!);
      this.path[at] = candidates[nth]!;
    }
  }
}
