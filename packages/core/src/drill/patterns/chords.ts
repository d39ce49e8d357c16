import type { Exercise, Step } from '../sheet.js';
import type { Ladder } from '../theory/keys.js';
import { asExercises, type Motion, type Place, steps, stepsOn } from './ladder-lines.js';
import { middleOctave } from './range.js';
import { exercisesOf, type LineChoice } from './scales.js';

/** Notes of each group of a broken chord. */
const GROUP = 4;

/** A chord broken into groups of four notes, from each of its notes upwards and back. */
export function brokenChord(ladder: Ladder, choice: LineChoice): readonly Exercise[] {
  const top = choice.octaves * ladder.size;
  const places: Place[] = [];
  for (let from = 0; from <= top; from++) places.push(...steps(from, from + GROUP - 1));
  for (let from = top - 1; from >= 0; from--) places.push(...steps(from + GROUP - 1, from));
  return exercisesOf(ladder, choice, places);
}

/**
 * I IV I V7 I in close position, the fifth of V7 left out: the right hand's notes as places of the scale by position of
 * the first chord. Common practice.
 */
const CADENCES: readonly (readonly (readonly number[])[])[] = [
  [
    [0, 2, 4],
    [0, 3, 5],
    [0, 2, 4],
    [-1, 3, 4],
    [0, 2, 4],
  ],
  [
    [2, 4, 7],
    [3, 5, 7],
    [2, 4, 7],
    [3, 4, 6],
    [2, 4, 7],
  ],
  [
    [4, 7, 9],
    [5, 7, 10],
    [4, 7, 9],
    [4, 6, 10],
    [4, 7, 9],
  ],
];
/** The roots, for the left hand. */
const BASS: readonly number[] = [0, 3, 0, -3, 0];

/**
 * Cadences in the root position, or in all three.
 *
 * @param ladder a scale of seven notes
 * @param beat ticks of a chord
 */
export function cadences(
  ladder: Ladder,
  { motion, start }: { readonly motion: Motion; readonly start?: number },
  inversions: boolean,
  beat: number,
): readonly Exercise[] {
  const positions = inversions ? CADENCES : CADENCES.slice(0, 1);
  return positions.flatMap((chords) => {
    const octave = start ?? middleOctave(ladder, -ladder.size, Math.max(...chords.flat()));
    const held = (own: readonly Step[]) => own.map((step) => ({ ...step, ticks: beat }));
    const right = chords.flatMap(([lowest = 0, ...others]) =>
      stepsOn(
        ladder,
        octave,
        [up(lowest)],
        others.map((other) => other - lowest),
      ),
    );
    const left = stepsOn(
      ladder,
      octave,
      BASS.map((place) => up(place - ladder.size)),
    );
    return asExercises(motion, held(right), held(left));
  });
}

/** Harmony takes the rising form of the scale. */
function up(at: number): Place {
  return { at, direction: 'up' };
}
