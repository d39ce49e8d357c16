import { type Spelling, spellingOf } from '../keyboard/key-names.js';
import type { Fraction } from '../numeric/fraction.js';
import type { Finger, Hand } from '../score/model.js';

/** Whether a choice of hands takes in this one. */
export function includesHand(hands: 'both' | Hand, hand: Hand): boolean {
  return hands === 'both' || hands === hand;
}

export function otherHand(hand: Hand): Hand {
  return hand === 'right' ? 'left' : 'right';
}

/** One key of a slice. Two note heads on the same key (a unison of two voices) are one key with two notes. */
export interface SliceKey {
  /** MIDI key number, 21 ... 108. */
  readonly key: number;
  /** Place on the staff as written (`Note.diatonic`): tells an augmented second from a minor third. */
  readonly diatonic?: number;
  /** Indices into `Part.notes` of the note heads that strike this key here (for a held key: that struck it). */
  readonly notes: readonly number[];
  /** Finger that the file or the caller demands. */
  readonly fixed?: Finger;
  /** For a held key: index of the slice that struck it. */
  readonly since?: number;
  /** Seconds from this slice until the key is released. */
  readonly seconds: number;
  /** True where the damper pedal is down from this slice to the written end, so that the finger may let go early. */
  readonly pedalled?: boolean;
}

/** How a slice's key is written; undefined where the line does not say. */
export function writtenAs(
  { struck, held }: Pick<Slice, 'struck' | 'held'>,
  key: number,
): Spelling | undefined {
  for (const keys of [struck, held]) {
    for (const own of keys) {
      if (own.key === key && own.diatonic !== undefined) return spellingOf(key, own.diatonic);
    }
  }
  return undefined;
}

/**
 * A slice is one onset of one hand, up to the hand's next onset: the keys that the hand strikes together there, and
 * those that it still holds. Keys ascend. Every grace note, or chord of grace notes, is a slice of its own before its
 * main note.
 */
export interface Slice {
  /** Index in `Line.slices`. */
  readonly index: number;
  /** Quarter notes from the start of the part in printed order; a grace note has the onset of its main note. */
  readonly onset: Fraction;
  /** Index in `Part.measures`. */
  readonly measure: number;
  /** True where it is a grace note, or a chord of them. */
  readonly grace: boolean;
  /** Keys struck at this onset. */
  readonly struck: readonly SliceKey[];
  /** Keys still down that were struck in an earlier slice (tied continuations included). */
  readonly held: readonly SliceKey[];
  /** Keys let go between the previous slice and this one. */
  readonly released: readonly number[];
  /** Seconds from the previous slice's onset to this one; 0 for the first. */
  readonly seconds: number;
  /** Seconds before this onset during which the hand held no key at all (rest, staccato). */
  readonly free: number;
  /** True where a phrase begins here: after a slur's end, a fermata or a rest. */
  readonly phraseStart: boolean;
  /** True where the slice begins on a beat of the time signature. */
  readonly onBeat: boolean;
  /** True where the struck keys are a rolled (arpeggiated) chord. */
  readonly rolled: boolean;
}

/** What one hand plays in one part, in printed order. */
export interface Line {
  /** Whose line it is. */
  readonly hand: Hand;
  /** Index in `Score.parts`. */
  readonly part: number;
  /** Every onset of the hand. */
  readonly slices: readonly Slice[];
  /** Note heads whose finger a stack of digits at another head of their chord prints. */
  readonly stacked?: ReadonlySet<number>;
}

/** Whether two slices strike the same keys. */
export function haveSameKeys({ struck }: Slice, { struck: others }: Slice): boolean {
  if (struck.length !== others.length) return false;
  for (let nth = 0; nth < struck.length; nth++) if (struck[nth]!.key !== others[nth]!.key) return false;
  return true;
}
