import type { Finger } from '../score/model.js';
import type { DepthReason } from './reason.js';

/** Depth state of one finger in use. */
export interface FingerDepth {
  /** 1, the thumb, to 5. */
  readonly finger: Finger;
  /** MIDI number of the key. */
  readonly key: number;
  /** Fingertip depth on the key in mm from the front edge. */
  readonly tip: number;
  /** mm by which the finger is curled back (positive) or over-reaches (negative) against its natural tip. */
  readonly curl: number;
}

/** Thumb passing behind a finger, finger passing over the thumb, or one hand over the other. */
export interface Crossing {
  /** What passes: the thumb, a finger, or a whole hand. */
  readonly kind: 'thumb-passing' | 'finger-over' | 'hand-over' | 'hand-under';
  /** The finger in use before. */
  readonly from: Finger;
  /** The finger in use after. */
  readonly to: Finger;
  /** Keyboard direction of the travel. */
  readonly direction: 'up' | 'down';
  /** True where it starts from a black key. */
  readonly fromBlack: boolean;
  /** True where it goes to a black key. */
  readonly toBlack: boolean;
  /** Discomfort in mm equivalents. */
  readonly difficulty: number;
}

/** Motion of the hand at one slice. Depths grow towards the fallboard; x grows towards the treble. All mm. */
export interface SliceMotion {
  /** Forearm depth: where the tip of a naturally curved 3 would be. */
  readonly depth: number;
  /** Change against the previous slice: positive in, negative out. */
  readonly depthChange: number;
  /** A small inward move that only brings the weight over the key already under the finger. */
  readonly lean: boolean;
  /** Every finger in use, struck keys first. */
  readonly fingers: readonly FingerDepth[];
  /** Why the depth changes; missing where it does not. */
  readonly reason?: DepthReason;
  /** Sideways arm position, mm from D4. */
  readonly arm: number;
  /** Change against the previous slice, mm. */
  readonly armChange: number;
  /** The crossing into this slice, where there is one. */
  readonly crossing?: Crossing;
  /** Wrist height above its level at the thumb, mm. */
  readonly contour: number;
  /** Forearm roll: -1 fully towards the thumb ... 1 fully towards 5. */
  readonly roll: number;
  /** True where the roll cannot reverse by itself and wants a fresh preparation. */
  readonly rollPrepare: boolean;
}

/** A doubt about the motion, such as an arm that cannot be clear of the thumb in time. */
export interface MotionFinding {
  /** Index of the slice. */
  readonly slice: number;
  /** One line for people, in English. */
  readonly message: string;
}

/** The motion of one hand through its whole line. */
export interface MotionPlan {
  /** Of every slice of the line, in its order. */
  readonly slices: readonly SliceMotion[];
  /** Doubts, in printed order. */
  readonly findings: readonly MotionFinding[];
  /** Total forearm depth travel, mm. */
  readonly depthTravel: number;
}
