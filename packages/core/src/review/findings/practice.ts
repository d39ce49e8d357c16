import type { Found } from '../causes/cause.js';
import type { Scene } from '../measure/scene.js';

const OCTAVE = 12;
/** Semitones of the widest step of a scale. */
const STEP = 2;

/**
 * A long finger on the outer key of an octave that moves by step to or from another octave with another outer finger: so
 * octaves are played legato (common practice).
 */
export function isLegatoOctave(scene: Scene, { slice }: Found): boolean {
  if (!isOctave(scene, slice)) return false;
  return [slice - 1, slice + 1].some((near) => {
    if (!isOctave(scene, near)) return false;
    const step = Math.abs(scene.views[near]!.low - scene.views[slice]!.low);
    return step > 0 && step <= STEP && outer(scene, near) !== outer(scene, slice);
  });
}

function isOctave({ views }: Scene, at: number): boolean {
  const keys = views[at]?.keys;
  return keys?.length === 2 && keys[1]! - keys[0]! === OCTAVE && views[at]!.struck.every(Boolean);
}

/** The finger on the outer key of an octave. */
function outer({ fingers }: Scene, at: number): number | undefined {
  return fingers[at]?.at(-1);
}
