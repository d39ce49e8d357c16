import type { Exercise, Step } from '../sheet.js';
import type { Ladder } from '../theory/keys.js';
import { isOnKeyboard, keyOf, type Pitch } from '../theory/pitch.js';
import { offKeyboard } from './range.js';

export type Motion = 'together' | 'contrary' | 'separate';

/** A place on a ladder, and whether the line is on its way up or down there. */
export interface Place {
  readonly at: number;
  readonly direction: 'up' | 'down';
}

/** Places from one to another by step, both included. */
export function steps(from: number, to: number): readonly Place[] {
  const direction = to < from ? 'down' : 'up';
  const sign = direction === 'down' ? -1 : 1;
  return Array.from({ length: Math.abs(to - from) + 1 }, (_, nth) => ({ at: from + sign * nth, direction }));
}

/** Up to a place and back. */
export function thereAndBack(from: number, to: number): readonly Place[] {
  return [...steps(from, to), ...steps(to, from).slice(1)];
}

/** Turned upside down about place 0. */
export function inverted(places: readonly Place[]): readonly Place[] {
  return places.map(({ at, direction }) => ({ at: 0 - at, direction: direction === 'up' ? 'down' : 'up' }));
}

export function shifted(places: readonly Place[], by: number): readonly Place[] {
  return places.map(({ at, direction }) => ({ at: at + by, direction }));
}

/** Lowest and highest place. */
export function reach(places: readonly Place[]): { readonly least: number; readonly most: number } {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { at } of places) {
    least = Math.min(least, at);
    most = Math.max(most, at);
  }
  return { least, most };
}

/**
 * The notes at places of a ladder.
 *
 * @param octave in which place 0 lies
 * @param above further notes struck with each, as places above it
 * @throws HandlineError OPTION where a note lies beyond the keyboard
 */
export function stepsOn(
  ladder: Ladder,
  octave: number,
  places: readonly Place[],
  above: readonly number[] = [],
): readonly Step[] {
  return places.map(({ at, direction }) => {
    const pitches = [0, ...above].map((more) => ladder.at(at + more, octave, direction)).sort(byKey);
    const outside = pitches.find((pitch) => !isOnKeyboard(pitch));
    if (outside) throw offKeyboard(outside);
    return { pitches };
  });
}

function byKey(a: Pitch, b: Pitch): number {
  return keyOf(a) - keyOf(b);
}

/** Both hands at once, or first the right hand alone and then the left. */
export function asExercises(
  motion: Motion,
  right: readonly Step[],
  left: readonly Step[],
  remark?: string,
): readonly Exercise[] {
  const told = remark === undefined ? {} : { remark };
  if (motion !== 'separate') return [{ ...told, steps: { right, left } }];
  return [
    { ...told, steps: { right, left: [] } },
    { ...told, steps: { right: [], left } },
  ];
}
