import { reach } from '../../anatomy/reach.js';
import { WHITE_WIDTH } from '../../keyboard/key-plan.js';
import { crosses, slipsBehind } from '../measure/leaps.js';
import { realKey, type Scene, type Step, stepInto } from '../measure/scene.js';
import type { Cause, Found } from './cause.js';

/** mm that five fingers cover without the hand moving: a fifth of white keys, and a little more. */
const COVERED = 4.5 * WHITE_WIDTH;
const FINGERS = 5;
/** mm beyond a comfortable crossing, or beyond the white key of a scale, from which the thumb is pulled: our choice. */
const PULLED = 5;

/** The fingers of a step lie against the order of its keys. */
function isCrossed({ from, to, interval }: Step): boolean {
  return interval !== 0 && from !== to && interval > 0 !== to > from;
}

function atStep({ views }: Scene, at: number, { from, to, was, is, mm }: Step): Found {
  return {
    slice: at,
    finger: to,
    key: realKey(views[at]!, is),
    other: { finger: from, key: realKey(views[at - 1]!, was), slice: at - 1 },
    mm: Math.abs(mm),
  };
}

/** The arm is not carried far enough in time for the thumb, as the plan finds. */
export const thumbLate: Cause = {
  name: 'thumb-late',
  kinds: ['sideways', 'crossings', 'stretch'],
  find(scene, at) {
    const step = stepInto(scene, at);
    if (!scene.late.has(at) || !step || step.to !== 1) return undefined;
    const distance = Math.abs(scene.motion[at]!.arm - scene.motion[at - 1]!.arm);
    return { ...atStep(scene, at, step), mm: distance };
  },
};

/** The thumb passes further behind a finger than the pair crosses in comfort: it is pulled under the palm. */
export const thumbUnderPalm: Cause = {
  name: 'thumb-under-palm',
  kinds: ['crossings', 'stretch', 'sideways'],
  find(scene, at) {
    const step = stepInto(scene, at);
    if (step?.to !== 1 || step.from === 5 || !isCrossed(step)) return undefined;
    const { minComfortable, minPractical } = reach(scene.hand, 1, step.from);
    const across = -Math.abs(step.mm);
    // Beyond the practical limit the hand moves as a whole.
    if (across > Math.min(minComfortable, -WHITE_WIDTH) - PULLED || across < 2 * minPractical)
      return undefined;
    return { ...atStep(scene, at, step), mm: minComfortable - across };
  },
};

/** A long finger passes another one, or 5 takes part in a crossing. */
export const longFingersCross: Cause = {
  name: 'long-fingers-cross',
  kinds: ['crossings', 'stretch', 'sideways'],
  find(scene, at) {
    const step = stepInto(scene, at);
    if (!step || !isCrossed(step) || !crosses(step.interval, scene.views[at]!.seconds)) return undefined;
    const { from, to, was, is, interval } = step;
    const [before, view] = [scene.views[at - 1]!, scene.views[at]!];
    if (from !== 1 && to !== 1 && slipsBehind(from, to, before.black[was]!, view.black[is]!, interval))
      return undefined;
    return (from !== 1 && to !== 1) || from === 5 || to === 5 ? atStep(scene, at, step) : undefined;
  },
};

/** The thumb crosses although the keys from the last move of the hand to the next lie under five fingers. */
export const needlessCrossing: Cause = {
  name: 'needless-crossing',
  kinds: ['crossings', 'sideways', 'stretch'],
  find(scene, at) {
    const step = stepInto(scene, at);
    if (!step || !isCrossed(step) || (step.from !== 1 && step.to !== 1) || step.from === 5 || step.to === 5)
      return undefined;
    const { views } = scene;
    let [from, to] = [at - 1, at + 1];
    while (from > 0 && staysPut(scene, from)) from--;
    while (to < views.length && staysPut(scene, to)) to++;
    const keys = new Set<number>();
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let nth = from; nth < to; nth++) {
      const view = views[nth]!;
      view.keys.forEach((key, own) => {
        keys.add(key);
        low = Math.min(low, view.x[own]!);
        high = Math.max(high, view.x[own]!);
      });
    }
    return keys.size <= FINGERS && high - low <= COVERED ? atStep(scene, at, step) : undefined;
  },
};

/** The hand reaches a slice without moving: no fresh start, no crossing, no key beyond five fingers. */
function staysPut(scene: Scene, at: number): boolean {
  const view = scene.views[at]!;
  // A scene may hold the fingers of some slices only.
  if (view.fresh || view.cut || !scene.fingers[at] || !scene.fingers[at - 1]) return false;
  const step = stepInto(scene, at);
  return !step || !isCrossed(step);
}
