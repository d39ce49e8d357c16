import { rounded } from '../../numeric/fixed-point.js';
import type { LineReport, SliceReport } from '../../options/report.js';
import type { Part } from '../../score/model.js';

const HARDEST = 5;

type MeasureMovement = LineReport['hardest'][number];

/** What the slices of a line come to, added one by one. */
export class Totals {
  #notes = 0;
  #fingered = 0;
  #kept = 0;
  #cues = 0;
  #crossings = 0;
  #depthTravel = 0;
  #movement = 0;
  #usage = 0;
  /** Movement and struck keys by index of the measure. */
  readonly #measures = new Map<number, { movement: number; keys: number }>();

  add({ measureIndex, keys, notes, movement, usage, depthChange, cue, crossing }: SliceReport): void {
    this.#notes += notes.length;
    for (const { digit } of notes) {
      if (digit === 'ours') this.#fingered += 1;
      else if (digit === 'given') this.#kept += 1;
    }
    if (cue !== undefined) this.#cues += 1;
    if (crossing !== undefined) this.#crossings += 1;
    this.#depthTravel += Math.abs(depthChange);
    this.#movement += movement;
    this.#usage += usage;
    const measure = this.#measures.get(measureIndex) ?? { movement: 0, keys: 0 };
    measure.movement += movement;
    measure.keys += keys.length;
    this.#measures.set(measureIndex, measure);
  }

  get counts(): Pick<LineReport, 'notes' | 'fingered' | 'kept' | 'cues' | 'crossings'> {
    return {
      notes: this.#notes,
      fingered: this.#fingered,
      kept: this.#kept,
      cues: this.#cues,
      crossings: this.#crossings,
    };
  }

  get sums(): Pick<LineReport, 'depthTravel' | 'movement' | 'usage'> {
    return {
      depthTravel: this.#depthTravel,
      movement: rounded(this.#movement),
      usage: rounded(this.#usage),
    };
  }

  hardest(part: Part): LineReport['hardest'] {
    const measures: MeasureMovement[] = [];
    for (const [measure, { movement, keys }] of this.#measures) {
      measures.push({ measure: part.measures[measure]!.number, movement: rounded(movement / keys) });
    }
    return measures.sort(harderFirst).slice(0, HARDEST);
  }
}

function harderFirst(a: MeasureMovement, b: MeasureMovement): number {
  return b.movement - a.movement;
}
