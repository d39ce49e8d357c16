import type { Hand, Note, Part } from '../score/model.js';

export type Placement = 'above' | 'below';

/** Right-hand marks stand above their notes, left-hand marks below. */
export function handPlacement(hand: Hand): Placement {
  return hand === 'right' ? 'above' : 'below';
}

/** Voices that share a staff in a measure. */
type Voices = Map<string, { sum: number; count: number }>;

/** By measure and staff: of several voices the one next to the other hand, the right hand's lowest or the left's highest. */
export type InnerVoices = readonly (readonly (string | undefined)[])[];

/**
 * Where a hand's digit stands: an inner voice has its digits on the side of its stems, below for the right hand and above
 * for the left, clear of the other voice's notes (common practice).
 */
export function digitPlacement({ measure, staff, voice }: Note, hand: Hand, inner: InnerVoices): Placement {
  const plain = handPlacement(hand);
  return inner[measure]![staff] === voice ? opposite(plain) : plain;
}

/** The inner voices of a part that one hand plays. */
export function innerVoices(part: Part, hand: Hand): InnerVoices {
  const measures: ((Voices | undefined)[] | undefined)[] = [];
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
  const inner: (string | undefined)[][] = [];
  for (const staves of measures) {
    const own: (string | undefined)[] = [];
    for (const voices of staves ?? []) own.push(voices && innerVoice(voices, hand));
    inner.push(own);
  }
  return inner;
}

/** Undefined where there is one voice only. */
function innerVoice(voices: Voices, hand: Hand): string | undefined {
  if (voices.size < 2) return undefined;
  let inner: string | undefined;
  let most = Number.NEGATIVE_INFINITY;
  for (const [voice, { sum, count }] of voices) {
    const height = sum / count;
    const nearness = hand === 'right' ? -height : height;
    if (nearness > most) [inner, most] = [voice, nearness];
  }
  return inner;
}

function opposite(placement: Placement): Placement {
  return placement === 'above' ? 'below' : 'above';
}
