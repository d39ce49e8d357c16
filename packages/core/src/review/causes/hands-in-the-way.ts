import { reach } from '../../anatomy/reach.js';
import { isFreshStart } from '../../hands/fresh-start.js';
import { keyX, mirrorKey, WHITE_WIDTH } from '../../keyboard/key-plan.js';
import { compare } from '../../numeric/fraction.js';
import type { Finger } from '../../score/model.js';
import { fingersAt, type Judged } from '../measure/judged.js';
import { type Across, realKey } from '../measure/scene.js';
import type { Cause } from './cause.js';

/** mm by which the thumbs' sides of two hands may overlap, one above the other: two white keys. Our choice. */
const ALLOWED = 2 * WHITE_WIDTH;

/** By slice of `own`: what the other hand of the same player holds meanwhile. */
export function acrossOf(own: Judged, other: Judged): readonly (Across | undefined)[] {
  const theirs = other.line.slices;
  let next = 0;
  return own.line.slices.map(({ onset }) => {
    while (next < theirs.length && compare(theirs[next]!.onset, onset) <= 0) next++;
    const at = next - 1;
    if (at < 0) return undefined;
    const after = theirs[next];
    const sounds = compare(theirs[at]!.onset, onset) === 0 || (after !== undefined && !isFreshStart(after));
    return sounds ? edgeOf(other, at) : undefined;
  });
}

/** From the other hand's view to this one's: mirrored. */
function edgeOf(other: Judged, at: number): Across | undefined {
  const view = other.views[at]!;
  const fingers = fingersAt(other, other.printed.path, at);
  if (fingers.length === 0) return undefined;
  const edge = Math.min(...fingers.map((finger, nth) => thumbSide(other, view.x[nth]!, finger)));
  return {
    edge: mirrored(edge),
    nearest: keyX(mirrorKey(view.keys[0]!)),
    finger: fingers[0]!,
    key: realKey(view, 0),
    slice: at,
  };
}

/** Where the thumb lies at least as far out as a finger on its key allows at ease, mm. */
function thumbSide({ hand }: Pick<Judged, 'hand'>, x: number, finger: Finger): number {
  return finger === 1 ? x : x - reach(hand, 1, finger).minRelaxed;
}

/** The key plan is symmetric about D4, where x is 0. */
function mirrored(x: number): number {
  return -x;
}

/** The thumb's side of this hand lies over that of the other hand, although their keys do not. */
export const handsInTheWay: Cause = {
  name: 'hands-in-the-way',
  kinds: ['sideways', 'in-and-out', 'stretch', 'crossings', 'curl'],
  find(scene, at) {
    const across = scene.across[at];
    const view = scene.views[at]!;
    const nth = view.struck.indexOf(true);
    if (!across || nth < 0 || view.x[0]! <= across.nearest) return undefined;
    const fingers = scene.fingers[at]!;
    const own = Math.min(...fingers.map((finger, key) => thumbSide(scene, view.x[key]!, finger)));
    const overlap = across.edge - own;
    if (overlap < ALLOWED) return undefined;
    const { finger, key, slice } = across;
    return {
      slice: at,
      finger: fingers[nth]!,
      key: realKey(view, nth),
      other: { finger, key, slice, otherHand: true },
      mm: overlap,
    };
  },
};
