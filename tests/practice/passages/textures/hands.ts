import { SEVENTHS_IN_BLOCK, TRIADS_IN_BLOCK } from './chords/chords.js';
import { OCTAVES } from './chords/octaves.js';
import { ROLLED, TENTHS } from './chords/wide-chords.js';
import { BROKEN_CHORDS } from './figures/broken-chords.js';
import { ARPEGGIOS } from './lines/arpeggios.js';
import { SCALES } from './lines/scales.js';
import type { Texture } from './texture.js';

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
