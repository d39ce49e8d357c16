import type { HandModel } from '../../anatomy/hand.js';
import { fingerLine } from '../../fingering/finger.js';
import type { LineFingering } from '../../fingering/result.js';
import type { Finger, Hand } from '../../score/model.js';
import { type Fragment, fragmentPlaces } from '../patterns/fragments.js';
import { type Place, thereAndBack } from '../patterns/ladder-lines.js';
import { middleOctave } from '../patterns/range.js';
import type { Ladder } from '../theory/keys.js';
import type { Pitch } from '../theory/pitch.js';
import { lineOf } from './line.js';

/** A fragment's easiest fingering, and the scale's. Movement in mm, mechanics alone. */
export interface Comparison {
  readonly fragment: Fragment;
  readonly easiest: readonly Finger[];
  readonly scale: readonly Finger[];
  readonly easiestMovement: number;
  readonly scaleMovement: number;
  /** What the scale's digits cost more by term, in mm, dearest first; terms that they cost less are left out. */
  readonly dearer: readonly { readonly term: string; readonly mm: number }[];
  /** False where both are the same. */
  readonly differs: boolean;
}

/** Octaves of the scale whose fingering is restricted to the fragments: those of a sheet of scales by default. */
const OCTAVES = 2;
/** mm below which a term says nothing to a reader. */
const TOLD = 1;

/** Who plays, and how fast: seconds from one note to the next. */
export interface Player {
  readonly hand: Hand;
  readonly model: HandModel;
  readonly seconds: number;
}

const single = (fingering: LineFingering): readonly Finger[] =>
  fingering.slices.map(({ struck }) => struck[0] as Finger);

/**
 * The digits that the search itself gives for the whole scale, by movement and usage, as a sheet of scales has them: for
 * each place within the upper octave, on the way up and on the way down.
 */
export class ScaleFingering {
  readonly #digits: Readonly<Record<'up' | 'down', readonly Finger[]>>;

  constructor(ladder: Ladder, { hand, model, seconds }: Player) {
    const { size } = ladder;
    const top = OCTAVES * size;
    const octave = middleOctave(ladder, 0, top);
    const places = thereAndBack(0, top);
    const pitches = places.map(({ at, direction }) => ladder.at(at, octave, direction));
    const digits = single(fingerLine(lineOf(hand, pitches, seconds), model).fingering);
    const upper = Array.from({ length: size }, (_, at) => at + top - size);
    this.#digits = {
      up: upper.map((at) => digits[at]!),
      down: upper.map((at) => digits[2 * top - at]!),
    };
  }

  of(places: readonly Place[]): readonly Finger[] {
    const { length } = this.#digits.up;
    return places.map(({ at, direction }) => this.#digits[direction][((at % length) + length) % length]!);
  }
}

/** The pitches of a fragment where one hand plays it. */
export function fragmentPitches(ladder: Ladder, fragment: Fragment, octave: number): readonly Pitch[] {
  return fragmentPlaces(fragment).map(({ at, direction }) => ladder.at(at, octave, direction));
}

export function compare(
  ladder: Ladder,
  fragment: Fragment,
  octave: number,
  player: Player,
  whole: ScaleFingering,
): Comparison {
  const { hand, model, seconds } = player;
  const pitches = fragmentPitches(ladder, fragment, octave);
  const scale = whole.of(fragmentPlaces(fragment));
  const own = fingerLine(lineOf(hand, pitches, seconds), model, { by: 'movement' }).fingering;
  const given = fingerLine(lineOf(hand, pitches, seconds, scale), model, { by: 'movement' }).fingering;
  const easiest = single(own);
  return {
    fragment,
    easiest,
    scale,
    easiestMovement: movementOf(own),
    scaleMovement: movementOf(given),
    dearer: dearer(own, given),
    differs: easiest.some((finger, at) => finger !== scale[at]),
  };
}

export function movementOf({ slices }: LineFingering): number {
  return slices.reduce((sum, { movement }) => sum + movement, 0);
}

function dearer(own: LineFingering, given: LineFingering): Comparison['dearer'] {
  const more = new Map<string, number>();
  const add = ({ slices }: LineFingering, sign: 1 | -1) => {
    for (const { terms } of slices) {
      for (const [term, mm] of Object.entries(terms)) more.set(term, (more.get(term) ?? 0) + sign * mm);
    }
  };
  add(given, 1);
  add(own, -1);
  return [...more]
    .map(([term, mm]) => ({ term, mm }))
    .filter(({ mm }) => mm >= TOLD)
    .sort((a, b) => b.mm - a.mm);
}
