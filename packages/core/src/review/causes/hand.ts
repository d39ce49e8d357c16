import type { HandModel } from '../../anatomy/hand.js';
import { reach } from '../../anatomy/reach.js';
import { heldCost, NO_TIME } from '../../fingering/cost/slice-costs.js';
import { TOLERANCE } from '../../fingering/view/holds.js';
import type { Finger } from '../../score/model.js';
import { KINDS } from '../measure/kinds.js';
import { realKey, type Scene, stepInto } from '../measure/scene.js';
import type { Cause, Found } from './cause.js';

/** mm by which the hand leaves its place before it is said to move: less than a key's width is no move. */
const MOVES = 15;
/** mm from one fingertip to the next of a hand at rest over white keys. */
const FINGER_STEP = 23.5;

/** Multiple of a pair's practical limit from which no hand holds it: up to there it is a stretch. Our choice. */
export const BEYOND = 1.3;

/** Digits that no hand can hold together: against the order of the keys, twice the same finger, beyond all reach. */
export const unholdable: Cause = {
  name: 'unholdable',
  kinds: KINDS,
  find({ views, fingers, unholdable: slices, shared, hand, digits }, at) {
    if (!slices.has(at) || shared.has(at)) return undefined;
    const view = views[at]!;
    const own = fingers[at]!;
    let open: Found | undefined;
    for (let a = 0; a < own.length; a++) {
      for (let b = a + 1; b < own.length; b++) {
        const wide =
          own[a]! < own[b]! && view.x[b]! - view.x[a]! > BEYOND * reach(hand, own[a]!, own[b]!).maxPractical;
        if (own[a]! < own[b]! && !wide) continue;
        if (passesUnder(hand, own[a]!, own[b]!, view.x[b]! - view.x[a]!)) continue;
        const other = { finger: own[a]!, key: realKey(view, a), slice: at };
        const found = { slice: at, finger: own[b]!, key: realKey(view, b), other };
        // Of two digits in print rather than of one that is inferred.
        if (digits[at]![a] !== undefined && digits[at]![b] !== undefined) return found;
        open ??= found;
      }
    }
    return open;
  },
};

/** A held key whose finger is needed elsewhere, or crossed, before there is time to change it: the key is let go. */
export const heldKeyLost: Cause = {
  name: 'held-key-lost',
  kinds: KINDS,
  find(scene, at) {
    const { views, fingers } = scene;
    const [before, view] = [views[at - 1], views[at]!];
    const nth = view.struck.indexOf(true);
    if (!before || !fingers[at - 1] || view.cut || nth < 0) return undefined;
    const left = keyLeft(scene, at);
    if (left) return left;
    if (heldCost(before, view, fingers[at - 1]!, fingers[at]!) < NO_TIME) return undefined;
    for (let held = 0; held < view.keys.length; held++) {
      const was = before.keys.indexOf(view.keys[held]!);
      const finger = fingers[at - 1]![was];
      if (view.struck[held] || finger === undefined || finger === fingers[at]![held]) continue;
      if (passesUnder(scene.hand, finger, fingers[at]![nth]!, view.x[nth]! - view.x[held]!)) continue;
      const other = { finger, key: realKey(view, held), slice: at };
      return { slice: at, finger: fingers[at]![nth]!, key: realKey(view, nth), other };
    }
    return undefined;
  },
};

/** Whether a finger that strikes a key `mm` above a held one is the thumb, which passes under the finger that holds it. */
function passesUnder(hand: HandModel, holder: Finger, finger: Finger, mm: number): boolean {
  return finger === 1 && holder > 1 && mm > 0 && mm <= TOLERANCE - reach(hand, 1, holder).minPractical;
}

/** A key that the score holds, but not the hand, because the finger on it strikes another one, or one lies beyond it. */
function keyLeft({ views, fingers, hand }: Scene, at: number): Found | undefined {
  const [before, view] = [views[at - 1]!, views[at]!];
  for (let was = 0; was < before.keys.length; was++) {
    const key = before.keys[was]!;
    const real = realKey(before, was);
    if (view.keys.includes(key) || !view.slice.held.some((own) => own.key === real)) continue;
    const finger = fingers[at - 1]![was]!;
    for (let nth = 0; nth < view.keys.length; nth++) {
      const own = fingers[at]![nth]!;
      if (!view.struck[nth] || (view.keys[nth]! > key ? own > finger : own < finger)) continue;
      if (passesUnder(hand, finger, own, view.x[nth]! - before.x[was]!)) continue;
      const other = { finger, key: real, slice: at };
      return { slice: at, finger: own, key: realKey(view, nth), other };
    }
  }
  return undefined;
}

/** The hand leaves its place, although other fingers lie nearer to the keys. */
export const handMoves: Cause = {
  name: 'hand-moves',
  kinds: ['sideways', 'in-and-out'],
  find(scene, at) {
    const step = stepInto(scene, at);
    if (step) {
      const mm = Math.abs(step.mm - (step.to - step.from) * FINGER_STEP * scene.hand.scale);
      if (mm < MOVES) return undefined;
      const other = { finger: step.from, key: realKey(scene.views[at - 1]!, step.was), slice: at - 1 };
      return { slice: at, finger: step.to, key: realKey(scene.views[at]!, step.is), other, mm };
    }
    return undefined;
  },
};

/** The finger of a slice that stands for it where no cause is found: the highest struck one. */
export function standsFor(scene: Scene, at: number) {
  const view = scene.views[at]!;
  const nth = view.struck.lastIndexOf(true);
  if (nth < 0) return undefined;
  return { slice: at, finger: scene.fingers[at]![nth]!, key: realKey(view, nth) };
}
