import { Draw } from '../making/draw.js';
import { frameOf, type Passage } from '../passage.js';
import { CADENCES, REPEATED_CHORDS, SEVENTHS_IN_BLOCK, TRIADS_IN_BLOCK } from './chords/chords.js';
import { DOUBLE_NOTES } from './chords/double-notes.js';
import { OCTAVES } from './chords/octaves.js';
import { ROLLED, TENTHS } from './chords/wide-chords.js';
import { ALBERTI } from './figures/alberti.js';
import { BROKEN_CHORDS } from './figures/broken-chords.js';
import { HELD_NOTES } from './figures/held-notes.js';
import { RECURRING_BARS } from './figures/recurring-bars.js';
import { WALTZ } from './figures/waltz.js';
import { SMALL_AND_LARGE } from './hands.js';
import { ARPEGGIOS } from './lines/arpeggios.js';
import { CHROMATIC } from './lines/chromatic.js';
import { FIVE_FINGERS } from './lines/five-fingers.js';
import { FRAGMENTS } from './lines/fragments.js';
import { LEAPS } from './lines/leaps.js';
import { GRACE_NOTES, SIGNS } from './lines/ornaments.js';
import { REPEATED_NOTES } from './lines/repeated-notes.js';
import { SCALES } from './lines/scales.js';
import { TRILLS } from './lines/trills.js';
import type { Texture } from './texture.js';

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
