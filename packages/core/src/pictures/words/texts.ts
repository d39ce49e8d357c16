import type { Hand } from '../../score/model.js';

/** The texts of the pictures in one language, with `{...}` to fill in. */
export interface PictureWords {
  readonly hands: Readonly<Record<Hand, string>>;
  /** Directions along the keyboard, at the edges of a carry line. */
  readonly right: string;
  readonly left: string;
  readonly depthTitle: string;
  readonly depth: string;
  readonly carryTitle: string;
  readonly carry: string;
  readonly none: string;
  readonly keyboardTitle: string;
  readonly nothingPlayed: string;
  readonly fingerOn: string;
  readonly holding: string;
  readonly thumb: string;
  readonly forearm: string;
  readonly furtherIn: string;
  readonly furtherOut: string;
}
