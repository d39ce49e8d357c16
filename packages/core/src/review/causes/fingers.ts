import { reach } from '../../anatomy/reach.js';
import { realKey, stepInto } from '../measure/scene.js';
import { slides } from '../measure/slides.js';
import type { Cause, Found } from './cause.js';

/** Share of the way from a pair's comfortable reach to its practical limit from which it counts as stretched: our choice. */
const STRETCHED = 0.25;
/** Keystrokes a second that one finger repeats at ease: from memory, as in the cost's own term. */
const AT_EASE = 4;
/** Pairs that tire in a trill, by the lower and the higher finger (common practice). */
const WEAK: ReadonlySet<number> = new Set([14, 15, 25, 34, 35, 45]);

/** One finger plays two keys in a row and hops. */
export const oneFingerMoves: Cause = {
  name: 'one-finger-moves',
  kinds: ['one-finger', 'sideways'],
  find({ views, fingers }, at) {
    const [before, view] = [views[at - 1], views[at]!];
    if (!before || view.fresh || view.cut) return undefined;
    // Chord after chord the whole hand moves.
    const single = before.keys.length === 1 && view.keys.length === 1;
    if (!single && !view.struck.includes(false)) return undefined;
    for (let nth = 0; nth < view.keys.length; nth++) {
      const finger = fingers[at]![nth]!;
      const was = fingers[at - 1]!.indexOf(finger);
      if (was < 0 || !view.struck[nth] || before.keys[was] === view.keys[nth]) continue;
      if (slides(finger, before, was, view, nth)) continue;
      const other = { finger, key: realKey(before, was), slice: at - 1 };
      const mm = Math.abs(view.x[nth]! - before.x[was]!);
      return { slice: at, finger, key: realKey(view, nth), other, mm };
    }
    return undefined;
  },
};

/** One finger strikes one key again faster than it does at ease. */
export const fastRepetition: Cause = {
  name: 'fast-repetition',
  kinds: ['one-finger'],
  find(scene, at) {
    const step = stepInto(scene, at);
    const { seconds } = scene.views[at]!;
    if (step?.interval !== 0 || step.from !== step.to || seconds * AT_EASE >= 1) return undefined;
    return { slice: at, finger: step.to, key: realKey(scene.views[at]!, step.is) };
  },
};

/** Two fingers near the limit of their reach for this hand, on keys held together or one after the other. */
export const stretched: Cause = {
  name: 'stretch',
  kinds: ['stretch', 'sideways'],
  find(scene, at) {
    const view = scene.views[at]!;
    let widest: Found | undefined;
    let most = STRETCHED;
    const fingers = scene.fingers[at]!;
    const judge = (low: number, high: number, apart: number, one: Found['other'], finger: Found) => {
      const { maxComfortable, maxPractical } = reach(scene.hand, low as 1, high as 1);
      const share = (apart - maxComfortable) / (maxPractical - maxComfortable);
      if (share <= most || !one) return;
      const beyond = apart > maxPractical && { beyond: true };
      [widest, most] = [{ ...finger, other: one, mm: apart, ...beyond }, share];
    };
    for (let a = 0; a < fingers.length; a++) {
      for (let b = a + 1; b < fingers.length; b++) {
        if (fingers[a] === fingers[b] || !(view.struck[a] || view.struck[b])) continue;
        // Of a key that is held and one that is struck: the latter.
        const [held, struck] = view.struck[b] ? [a, b] : [b, a];
        const one = { finger: fingers[held]!, key: realKey(view, held), slice: at };
        const two = { slice: at, finger: fingers[struck]!, key: realKey(view, struck) };
        judge(fingers[a]!, fingers[b]!, view.x[b]! - view.x[a]!, one, two);
      }
    }
    const step = stepInto(scene, at);
    if (step && step.from !== step.to && step.interval > 0 === step.to > step.from) {
      const one = { finger: step.from, key: realKey(scene.views[at - 1]!, step.was), slice: at - 1 };
      const two = { slice: at, finger: step.to, key: realKey(view, step.is) };
      judge(step.from, step.to, Math.abs(step.mm), one, two);
    }
    return widest;
  },
};

/** A long trill by two fingers that tire. */
export const weakTrill: Cause = {
  name: 'weak-trill',
  kinds: ['other', 'stretch'],
  find(scene, at) {
    const step = stepInto(scene, at);
    const long = Math.min(scene.views[at]!.alternation, scene.views[at - 1]?.alternation ?? 0);
    if (!step || long === 0) return undefined;
    const [low, high] = [Math.min(step.from, step.to), Math.max(step.from, step.to)];
    if (!WEAK.has(10 * low + high)) return undefined;
    const other = { finger: step.from, key: realKey(scene.views[at - 1]!, step.was), slice: at - 1 };
    return { slice: at, finger: step.to, key: realKey(scene.views[at]!, step.is), other };
  },
};
