import type { Finger } from '../score/model.js';
import type { DepthReason } from './reason.js';

/** Depth state of one finger in use. */
export interface FingerDepth {
  readonly finger: Finger;
  readonly key: number;
  /** Fingertip depth on the key in mm from the front edge. */
  readonly tip: number;
  /** mm by which the finger is curled back (positive) or over-reaches (negative) against its natural tip. */
  readonly curl: number;
}

/** Thumb passing behind a finger, finger passing over the thumb, or one hand over the other. */
export interface Crossing {
  readonly kind: 'thumb-passing' | 'finger-over' | 'hand-over' | 'hand-under';
  readonly from: Finger;
  readonly to: Finger;
  /** Keyboard direction of the travel. */
  readonly direction: 'up' | 'down';
  readonly fromBlack: boolean;
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
  readonly fingers: readonly FingerDepth[];
  /** Why the depth changes; missing where it does not. */
  readonly reason?: DepthReason;
  /** Sideways arm position, mm from D4. */
  readonly arm: number;
  readonly armChange: number;
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
  readonly slice: number;
  readonly message: string;
}

export interface MotionPlan {
  readonly slices: readonly SliceMotion[];
  readonly findings: readonly MotionFinding[];
  /** Total forearm depth travel, mm. */
  readonly depthTravel: number;
}
