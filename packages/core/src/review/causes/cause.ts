import type { Finger } from '../../score/model.js';
import type { Kind } from '../measure/kinds.js';
import type { Scene } from '../measure/scene.js';

/** Why a printed fingering costs movement. */
export const CAUSES = [
  'unholdable',
  'held-key-lost',
  'other-hand',
  'thumb-late',
  'thumb-under-palm',
  'long-fingers-cross',
  'needless-crossing',
  'fast-repetition',
  'weak-trill',
  'one-finger-moves',
  'stretch',
  'thumb-on-black',
  'between-black-keys',
  'curled',
  'over-reaching',
  'forearm-travels',
  'scale-fingering',
  'unlike',
  'hands-in-the-way',
  'hand-moves',
] as const;
/** Why digits cost more than they need. */
export type CauseName = (typeof CAUSES)[number];

/** A finger on its key, at a slice of its line. */
export interface Other {
  readonly finger: Finger;
  /** MIDI number. */
  readonly key: number;
  readonly slice: number;
  /** True where it is one of the player's other hand, and `slice` one of its line. */
  readonly otherHand?: boolean;
}

/** A cause found at one note. */
export interface Found {
  readonly slice: number;
  readonly finger: Finger;
  /** MIDI number of the key under that finger. */
  readonly key: number;
  /** The other finger and key concerned, such as those that a thumb passes. */
  readonly other?: Other;
  /** mm: how far a pair is stretched, the arm has still to go, a finger curls. */
  readonly mm?: number;
  /** True where a pair is further apart than this hand reaches. */
  readonly beyond?: boolean;
}

/** A cause as a pure function of a fingering and its motion: what it finds at a slice. */
export interface Cause {
  readonly name: CauseName;
  /** Kinds of movement that it adds to. */
  readonly kinds: readonly Kind[];
  readonly find: (scene: Scene, at: number) => Found | undefined;
}
