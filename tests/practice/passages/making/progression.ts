import type { Draw } from './draw.js';
import { chordOn, invert, type Mode } from './pitches.js';

/** Roots of chords as scale degrees from 0, in harmonic order; every one begins and ends on the tonic (common practice). */
const PROGRESSIONS: readonly (readonly number[])[] = [
  [0, 3, 4, 0],
  [0, 4, 0, 3, 0],
  [0, 5, 3, 4, 0],
  [0, 1, 4, 0],
  [0, 5, 1, 4, 0],
  [0, 3, 0, 4, 0],
  [0, 2, 5, 1, 4, 0],
  [0, 3, 1, 4, 5, 1, 4, 0],
];

export function drawRoots(draw: Draw): readonly number[] {
  return draw.pick(PROGRESSIONS);
}

/** Close chords on the roots, each in the inversion that lies nearest to the chord before; sevenths on the dominant if asked. */
export function nearestChords(
  low: number,
  mode: Mode,
  roots: readonly number[],
  inversion: number,
  tones: (root: number) => number,
): number[][] {
  const chords: number[][] = [];
  for (const root of roots) {
    const keys = chordOn(low, mode, root, tones(root), inversion);
    const before = chords.at(-1);
    chords.push(before ? nearest(keys, before) : keys);
  }
  return chords;
}

function nearest(keys: readonly number[], before: readonly number[]): number[] {
  const middle = (own: readonly number[]) => own.reduce((sum, key) => sum + key, 0) / own.length;
  const all = Array.from({ length: 8 * keys.length + 1 }, (_, nth) => invert(keys, nth - 4 * keys.length));
  const way = (own: readonly number[]) => Math.abs(middle(own) - middle(before));
  return all.reduce((best, own) => (way(own) < way(best) - 1e-9 ? own : best));
}
