import { placeTips, type TipPlacement, type TipRow } from '../anatomy/fingertip.js';
import type { HandModel } from '../anatomy/hand.js';
import { PerHand } from '../anatomy/per-hand.js';
import { pitchClass } from '../keyboard/key-plan.js';
import type { Finger } from '../score/model.js';

/** Forearm depths on the grid, mm: from a 3 on the front edge to a thumb deep among the black keys (from memory). */
export const LEAST_DEPTH = 10;
export const GREATEST_DEPTH = 140;
export const GRID_SIZE = GREATEST_DEPTH - LEAST_DEPTH + 1;

/**
 * Fingertip placements of one hand on the grid, each worked out once. Keys an octave apart are alike in depth, so that
 * sixty rows serve any line.
 */
export class TipTable {
  /** Ids of rows lie below this: twelve for every finger, and twelve that stay unused below those of 1. */
  static readonly IDS = 6 * 12;
  readonly #hand: HandModel;
  readonly #rows: (TipRow | undefined)[] = new Array(TipTable.IDS).fill(undefined);

  constructor(hand: HandModel) {
    this.#hand = hand;
  }

  /** Placements of a finger on a key by grid step. */
  row(finger: Finger, key: number): TipRow {
    const id = TipTable.id(finger, key);
    let row = this.#rows[id];
    if (!row) {
      row = placeTips(this.#hand, finger, key, LEAST_DEPTH, GRID_SIZE);
      this.#rows[id] = row;
    }
    return row;
  }

  /** @param depth forearm depth in whole mm on the grid */
  at(finger: Finger, key: number, depth: number): TipPlacement {
    const { tips, curls, discomforts } = this.row(finger, key);
    const step = depth - LEAST_DEPTH;
    return { tip: tips[step]!, curl: curls[step]!, discomfort: discomforts[step]! };
  }

  /** mm equivalents, at a forearm depth as for `at`. */
  discomfort(finger: Finger, key: number, depth: number): number {
    return this.row(finger, key).discomforts[depth - LEAST_DEPTH]!;
  }

  /** Equal for placements that share a row. */
  static id(finger: Finger, key: number): number {
    return finger * 12 + pitchClass(key);
  }
}

/** The tables that all lines of a hand share. */
export const tipTables = new PerHand((hand) => new TipTable(hand));
