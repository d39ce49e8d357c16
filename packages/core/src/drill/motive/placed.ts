import type { Hand } from '../../score/model.js';
import { middleOctave } from '../patterns/range.js';
import type { Ladder } from '../theory/keys.js';
import { keyOf } from '../theory/pitch.js';
import { pitchClassOf } from '../theory/tonic.js';
import type { Figure } from './figure.js';
import { type Motive, placesOf } from './motive.js';

/** Along the scale, or by semitones. */
export type Sequence = 'diatonic' | 'chromatic';

const TWELVE = 12;

/** A motive, and where its hands play it. */
export interface Placed {
  readonly motive: Motive;
  /** The octave of place 0 by hand, for the ladder of a key. */
  readonly octaves: (ladder: Ladder) => Readonly<Record<Hand, number>>;
}

/** A motive of degrees lies about the middle of the keyboard, the left hand an octave below the right. */
export function placedDegrees(motive: Motive, steps: number, start: number | undefined): Placed {
  const { least, most } = placesOf(motive);
  return {
    motive,
    octaves: (ladder) => {
      const right = start ?? middleOctave(ladder, least - ladder.size, most + steps);
      return { right, left: right - 1 };
    },
  };
}

/** A figure stays where it is, in other keys as near to that as it can be. */
export function placedFigure({ motive, tonic, octave }: Figure): Placed {
  const home = pitchClassOf(tonic);
  return {
    motive,
    octaves: (ladder) => {
      const own = pitchClassOf(ladder.tonic);
      // The nearer way from one tonic to the other, at most a tritone.
      const up = (own - home + TWELVE) % TWELVE;
      const target = TWELVE * (octave + 1) + home + (up <= TWELVE / 2 ? up : up - TWELVE);
      const inOctave = keyOf(ladder.at(0, octave, 'up'));
      const near = octave + Math.round((target - inOctave) / TWELVE);
      return { right: near, left: near };
    },
  };
}
