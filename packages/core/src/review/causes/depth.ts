import { BLACK_FRONT, blackNeighbours, isBlack } from '../../keyboard/key-plan.js';
import type { FingerDepth } from '../../motion/plan.js';
import type { Finger } from '../../score/model.js';
import { realKey, type Scene } from '../measure/scene.js';
import type { Cause, Found } from './cause.js';

/** mm equivalents of discomfort from which a finger does not lie at ease: our choice, on the scale of `anatomy/fingertip`. */
const UNEASY = 2;
/** mm by which a finger curls or reaches before it is called so: beyond the easy range of `anatomy/fingertip`. */
const CURLED = 8;
const REACHING = 4;
/** mm of depth at which a tip begins to enter between black keys, as in `anatomy/fingertip`. */
const IN_THE_GAP = BLACK_FRONT - 8;
/** Slices around a note whose keys hold the hand where it is. */
const NEAR = 2;

/** A struck finger for which its key asks another depth than the forearm has. */
function uneasy(
  { motion, views, tips }: Scene,
  at: number,
  is: (own: FingerDepth) => boolean,
): FingerDepth | undefined {
  const { depth, fingers } = motion[at]!;
  const { struck } = views[at]!.slice;
  return fingers.find(
    (own) =>
      struck.some(({ key }) => key === own.key) &&
      tips.discomfort(own.finger, own.key, depth) >= UNEASY &&
      is(own),
  );
}

function isLong(finger: Finger): boolean {
  return finger > 1 && finger < 5;
}

/** The nearest finger around a slice that keeps the forearm in, on a black key, or out: a long one in front of the black keys. */
function holder({ motion }: Scene, at: number, black: boolean): Found['other'] {
  for (let far = 0; far <= NEAR; far++) {
    for (const slice of far === 0 ? [at] : [at + far, at - far]) {
      for (const { finger, key } of motion[slice]?.fingers ?? []) {
        if (isBlack(key) === black && (black || isLong(finger))) return { finger, key, slice };
      }
    }
  }
  return undefined;
}

function found(scene: Scene, at: number, own: FingerDepth | undefined, black: boolean): Found | undefined {
  if (!own) return undefined;
  const other = holder(scene, at, black);
  const { finger, key, curl } = own;
  return { slice: at, finger, key, mm: Math.abs(curl), ...(other && { other }) };
}

/** A long finger wedged on a white key between two black ones. */
export const betweenBlackKeys: Cause = {
  name: 'between-black-keys',
  kinds: ['curl', 'in-and-out'],
  find: (scene, at) =>
    found(
      scene,
      at,
      uneasy(
        scene,
        at,
        ({ finger, key, tip }) => isLong(finger) && blackNeighbours(key) === 2 && tip > IN_THE_GAP,
      ),
      true,
    ),
};

/** A finger curled back because the forearm is further in than its key asks. */
export const curled: Cause = {
  name: 'curled',
  kinds: ['curl', 'in-and-out'],
  find: (scene, at) =>
    found(
      scene,
      at,
      uneasy(scene, at, ({ curl }) => curl > CURLED),
      true,
    ),
};

/** A finger stretched out because the forearm is further out than its key asks. */
export const overReaching: Cause = {
  name: 'over-reaching',
  kinds: ['curl', 'in-and-out'],
  find: (scene, at) =>
    found(
      scene,
      at,
      uneasy(scene, at, ({ curl }) => curl < -REACHING),
      false,
    ),
};

/** mm of a move in or out that is spoken of: our choice. */
const TRAVELS = 6;

/** The forearm has to go in or come out for a finger on its key. */
export const forearmTravels: Cause = {
  name: 'forearm-travels',
  kinds: ['in-and-out', 'curl'],
  find({ motion, views, fingers }, at) {
    const view = views[at]!;
    const nth = view.struck.indexOf(true);
    const mm = Math.abs(motion[at]!.depthChange);
    if (nth < 0 || mm < TRAVELS) return undefined;
    return { slice: at, finger: fingers[at]![nth]!, key: realKey(view, nth), mm };
  },
};

/** The thumb strikes a black key while the notes around it leave the hand out over the white keys. */
export const thumbOnBlack: Cause = {
  name: 'thumb-on-black',
  kinds: ['other', 'crossings', 'curl', 'in-and-out'],
  find({ views, fingers }, at) {
    const view = views[at]!;
    const nth = fingers[at]!.indexOf(1);
    if (nth < 0 || !view.struck[nth] || !view.black[nth] || view.keys.length > 1) return undefined;
    for (const near of [at - 1, at + 1]) {
      const other = views[near];
      if (other?.keys.length !== 1 || (near > at ? other.fresh : view.fresh)) continue;
      // The neighbour is white: the hand is out there.
      if (!other.black[0]) {
        const lies = { finger: fingers[near]![0]!, key: realKey(other, 0), slice: near };
        return { slice: at, finger: 1, key: realKey(view, nth), other: lies };
      }
    }
    return undefined;
  },
};
