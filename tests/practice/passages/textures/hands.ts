import { ARPEGGIOS } from './arpeggios.js';
import { BROKEN_CHORDS } from './broken-chords.js';
import { SEVENTHS_IN_BLOCK, TRIADS_IN_BLOCK } from './chords.js';
import { OCTAVES } from './octaves.js';
import { SCALES } from './scales.js';
import type { Texture } from './texture.js';
import { ROLLED, TENTHS } from './wide-chords.js';

const WHERE_SIZE_TELLS = [
  OCTAVES,
  SEVENTHS_IN_BLOCK,
  ARPEGGIOS,
  TENTHS,
  ROLLED,
  BROKEN_CHORDS,
  TRIADS_IN_BLOCK,
  SCALES,
];

/** Small and large hands in the textures where their size tells; each is judged by the rules of its texture. */
export const SMALL_AND_LARGE: Texture = {
  name: 'small and large hands',
  count: 96,
  blind: 65,
  draw: (frame, draw) => {
    const drawn = draw.pick(WHERE_SIZE_TELLS).draw(frame, draw);
    return { ...drawn, span: frame.round % 2 === 0 ? 'small' : 'large' };
  },
};
