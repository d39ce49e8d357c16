import { Draw } from '../draw.js';
import { frameOf, type Passage } from '../passage.js';
import { ALBERTI } from './alberti.js';
import { ARPEGGIOS } from './arpeggios.js';
import { BROKEN_CHORDS } from './broken-chords.js';
import { CADENCES, REPEATED_CHORDS, SEVENTHS_IN_BLOCK, TRIADS_IN_BLOCK } from './chords.js';
import { CHROMATIC } from './chromatic.js';
import { DOUBLE_NOTES } from './double-notes.js';
import { FIVE_FINGERS } from './five-fingers.js';
import { FRAGMENTS } from './fragments.js';
import { SMALL_AND_LARGE } from './hands.js';
import { HELD_NOTES } from './held-notes.js';
import { LEAPS } from './leaps.js';
import { OCTAVES } from './octaves.js';
import { GRACE_NOTES, SIGNS } from './ornaments.js';
import { RECURRING_BARS } from './recurring-bars.js';
import { REPEATED_NOTES } from './repeated-notes.js';
import { SCALES } from './scales.js';
import type { Texture } from './texture.js';
import { TRILLS } from './trills.js';
import { WALTZ } from './waltz.js';
import { ROLLED, TENTHS } from './wide-chords.js';

export const TEXTURES: readonly Texture[] = [
  RECURRING_BARS,
  TRIADS_IN_BLOCK,
  REPEATED_CHORDS,
  REPEATED_NOTES,
  CADENCES,
  HELD_NOTES,
  SEVENTHS_IN_BLOCK,
  CHROMATIC,
  BROKEN_CHORDS,
  OCTAVES,
  SMALL_AND_LARGE,
  ALBERTI,
  ARPEGGIOS,
  LEAPS,
  SCALES,
  TENTHS,
  ROLLED,
  SIGNS,
  GRACE_NOTES,
  DOUBLE_NOTES,
  FIVE_FINGERS,
  TRILLS,
  FRAGMENTS,
  WALTZ,
];

/** The passages of a texture, the same in every run. */
export function passagesOf({ name, count, draw }: Texture): Passage[] {
  const seed = [...name].reduce((sum, letter) => Math.imul(sum, 31) + letter.charCodeAt(0), 7);
  return Array.from({ length: count }, (_, nth) => {
    const drawn = draw(frameOf(nth), new Draw(seed + nth * 7919));
    return { heed: {}, ...drawn, texture: name, name: `${name} ${nth}` };
  });
}
