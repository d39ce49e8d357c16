import type { Hand } from './hands/line.js';
import type { Note, Part } from './score/model.js';

export type Placement = 'above' | 'below';

/** Right-hand marks stand above their notes, left-hand marks below. */
export function handPlacement(hand: Hand): Placement {
  return hand === 'right' ? 'above' : 'below';
}

/**
 * Where a digit stands. Of several voices on one staff in one measure, the right hand's lowest has its digits below and
 * the left hand's highest above, on the side of its stems, clear of the other voice's notes (common practice).
 */
export function digitPlacement(part: Part): (note: Note, hand: Hand) => Placement {
  const voices = new Map<string, Map<string, { sum: number; count: number }>>();
  const place = ({ measure, staff }: Note) => `${measure} ${staff}`;
  for (const note of part.notes) {
    const here = voices.get(place(note)) ?? new Map<string, { sum: number; count: number }>();
    const own = here.get(note.voice) ?? { sum: 0, count: 0 };
    here.set(note.voice, { sum: own.sum + note.key, count: own.count + 1 });
    voices.set(place(note), here);
  }
  return (note, hand) => {
    const plain = handPlacement(hand);
    const here = voices.get(place(note))!;
    if (here.size < 2) return plain;
    const heights = [...here].map(([voice, { sum, count }]) => ({ voice, height: sum / count }));
    const inner = heights.reduce((most, own) =>
      (hand === 'right' ? own.height < most.height : own.height > most.height) ? own : most,
    );
    return inner.voice === note.voice ? opposite(plain) : plain;
  };
}

function opposite(placement: Placement): Placement {
  return placement === 'above' ? 'below' : 'above';
}
