import { reach } from '../../anatomy/reach.js';
import { KINDS } from '../measure/kinds.js';
import { realKey, type Scene, stepInto } from '../measure/scene.js';
import type { Cause, Found } from './cause.js';
import { BEYOND } from './hand.js';

/**
 * A printed digit that does not suit the keys without a digit in its chord: they are against the order of the fingers, or
 * far. The other hand may be meant to take them.
 */
export const otherHand: Cause = {
  name: 'other-hand',
  kinds: KINDS,
  find(scene, at) {
    if (fitsTheOther(scene, at)) return inARow(scene, at);
    const { views, fingers, digits, hand } = scene;
    const view = views[at]!;
    const own = fingers[at]!;
    for (let a = 0; a < own.length; a++) {
      for (let b = a + 1; b < own.length; b++) {
        const [isPrinted, isOther] = [digits[at]![a] !== undefined, digits[at]![b] !== undefined];
        if (isPrinted === isOther || !view.struck[a] || !view.struck[b] || own[a] === own[b]) continue;
        const fits =
          own[a]! < own[b]! && view.x[b]! - view.x[a]! <= BEYOND * reach(hand, own[a]!, own[b]!).maxPractical;
        if (fits) continue;
        const [printed, open] = isPrinted ? [a, b] : [b, a];
        const other = { finger: own[open]!, key: realKey(view, open), slice: at };
        return { slice: at, finger: own[printed]!, key: realKey(view, printed), other };
      }
    }
    return undefined;
  },
};

/** Two steps on in one direction that the printed digits take against the order of the fingers, as 3 2 1 upwards. */
function fitsTheOther(scene: Scene, at: number): boolean {
  const way = reversed(scene, at);
  return way !== 0 && (reversed(scene, at - 1) === way || reversed(scene, at + 1) === way);
}

/** Direction of a step whose fingers lie against it, both in print; 0 for any other. */
function reversed(scene: Scene, at: number): number {
  const step = at > 0 && at < scene.views.length ? stepInto(scene, at) : undefined;
  if (!step || step.interval === 0 || step.from === step.to) return 0;
  const isPrinted = scene.digits[at]![step.is] !== undefined && scene.digits[at - 1]![step.was] !== undefined;
  return isPrinted && step.interval > 0 !== step.to > step.from ? Math.sign(step.interval) : 0;
}

function inARow({ views, fingers }: Scene, at: number): Found {
  const nth = views[at]!.struck.indexOf(true);
  return { slice: at, finger: fingers[at]![nth]!, key: realKey(views[at]!, nth) };
}
