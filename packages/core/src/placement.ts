import type { Hand } from './hands/line.js';
import type { Note, Part } from './score/model.js';

export type Placement = 'above' | 'below';

/** Right-hand marks stand above their notes, left-hand marks below. */
export function handPlacement(hand: Hand): Placement {
  return hand === 'right' ? 'above' : 'below';
}

/** Voices that share a staff in a measure. */
type Voices = Map<string, { sum: number; count: number }>;

/**
 * Where a hand's digits stand. Of several voices on one staff in one measure, the right hand's lowest has its digits
 * below and the left hand's highest above, on the side of its stems, clear of the other voice's notes (common practice).
 */
export function digitPlacement(part: Part, hand: Hand): (note: Note) => Placement {
  const plain = handPlacement(hand);
  const measures: Voices[][] = [];
  for (const { measure, staff, voice, key } of part.notes) {
    measures[measure] ??= [];
    const staves = measures[measure]!;
    staves[staff] ??= new Map();
    const own = staves[staff]!.get(voice);
    if (own === undefined) staves[staff]!.set(voice, { sum: key, count: 1 });
    else {
      own.sum += key;
      own.count += 1;
    }
  }
  const inner = measures.map((staves) =>
    staves.map((voices) => (voices.size < 2 ? undefined : innerVoice(voices, hand))),
  );
  return ({ measure, staff, voice }) => (inner[measure]![staff] === voice ? opposite(plain) : plain);
}

/** The voice next to the other hand. */
function innerVoice(voices: Voices, hand: Hand): string {
  const heights = [...voices].map(([voice, { sum, count }]) => ({ voice, height: sum / count }));
  return heights.reduce((most, own) =>
    (hand === 'right' ? own.height < most.height : own.height > most.height) ? own : most,
  ).voice;
}

function opposite(placement: Placement): Placement {
  return placement === 'above' ? 'below' : 'above';
}
