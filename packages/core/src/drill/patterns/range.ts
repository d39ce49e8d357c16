import { HandlineError } from '../../score/errors.js';
import type { Ladder } from '../theory/keys.js';
import { keyOf, octaveOf, type Pitch, stepOf } from '../theory/pitch.js';

/** The middle of the keyboard for the two hands: E4, between the staves and a little above. */
const MIDDLE = 64;
const HIGHEST_OCTAVE = 8;

const LETTER_NAMES = 'CDEFGAB';

export function offKeyboard(pitch: Pitch): HandlineError {
  const sign = pitch.alter < 0 ? 'b' : '#';
  const name = `${LETTER_NAMES[stepOf(pitch)]}${sign.repeat(Math.abs(pitch.alter))}${octaveOf(pitch.diatonic)}`;
  return new HandlineError(
    'OPTION',
    `${name} lies beyond the keyboard (A0 to C8); take fewer octaves, or start in another one`,
  );
}

/**
 * The octave of the right hand's place 0 for which what both hands play lies best about the middle of the keyboard.
 *
 * @param least lowest place of all, with the right hand's 0 as 0
 * @param most highest place of all
 */
export function middleOctave(ladder: Ladder, least: number, most: number): number {
  let best = 0;
  let distance = Number.POSITIVE_INFINITY;
  for (let octave = 0; octave <= HIGHEST_OCTAVE; octave++) {
    const low = keyOf(ladder.at(least, octave, 'up'));
    const high = keyOf(ladder.at(most, octave, 'up'));
    const own = Math.abs((low + high) / 2 - MIDDLE);
    // The higher one of two that lie equally well.
    if (own <= distance) [best, distance] = [octave, own];
  }
  return best;
}
