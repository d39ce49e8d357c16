import type { Cause, CauseName, Found } from '../causes/cause.js';
import { standsFor } from '../causes/hand.js';
import { CAUSES_OF_A_HAND } from '../causes/index-of-causes.js';
import type { Judged } from '../measure/judged.js';
import { KINDS, type Kind, type Movement, movementOf, noMovement } from '../measure/kinds.js';
import type { Scene } from '../measure/scene.js';
import type { Remedy } from './remedies.js';

/** What a remedy removes. */
export interface Diagnosis {
  readonly cause: CauseName;
  readonly found: Found;
  /** mm saved by kind, below 0 where the remedy costs more, over the notes around it. */
  readonly saved: Movement;
}

/** Slices after a change whose movement still depends on it: a chain of three. */
const AFTER = 2;
/** Share of what is saved that a cause must explain to be named before a more general one: our choice. */
const TELLING = 0.35;

/** Causes that forbid the printed digits: what they cost is no movement. */
const IMPOSSIBLE: readonly CauseName[] = ['unholdable', 'held-key-lost'];

/** The cause in print that a remedy relieves most: the printed fingering shows it, the other one no longer does. */
export function diagnose(
  judged: Judged,
  printed: Scene,
  other: Scene,
  remedy: Remedy,
): Diagnosis | undefined {
  const [from, to] = [Math.max(0, remedy.from - 1), Math.min(judged.views.length, remedy.to + AFTER)];
  const before = movementOf(judged, judged.printed, from, to);
  const after = movementOf(judged, remedy.choice, from, to);
  const saved = before.map((own, nth) => difference(own, after[nth]!));
  const all = remedy.kinds;
  let best: Diagnosis | undefined;
  let most = 0;
  const causes = remedy.tie ? CAUSES_OF_A_HAND.filter(isOfDepth) : CAUSES_OF_A_HAND;
  for (const { name, kinds, find } of causes) {
    const relief = relieved(all, kinds);
    if (IMPOSSIBLE.includes(name) ? !remedy.enables : relief <= most) continue;
    if (best && (IMPOSSIBLE.includes(best.cause) || most >= TELLING * remedy.saved)) continue;
    let found: Found | undefined;
    let local = Number.NEGATIVE_INFINITY;
    for (let at = from; at < to; at++) {
      const own = find(printed, at);
      if (!own || find(other, at)?.key === own.key) continue;
      const here =
        relieved(saved[at - from]!, kinds) + relieved(saved[at - from + 1] ?? noMovement(), kinds) / 2;
      if (here > local) [found, local] = [own, here];
    }
    if (found) [best, most] = [{ cause: name, found, saved: all }, Math.max(0, relief)];
  }
  return best ?? general(printed, saved, all, from);
}

/** A tie is spoken of for the forearm's travel in and out. */
function isOfDepth({ name, kinds }: Cause): boolean {
  return (
    name === 'scale-fingering' || (kinds.includes('in-and-out') && kinds.includes('curl') && kinds.length < 4)
  );
}

/** No cause is found: the hand moves more than it need, at the note where most is saved. */
function general(
  printed: Scene,
  saved: readonly Movement[],
  all: Movement,
  from: number,
): Diagnosis | undefined {
  const sums = saved.map((own) => relieved(own, KINDS));
  const found = standsFor(printed, from + sums.indexOf(Math.max(...sums)));
  return found && { cause: 'hand-moves', found, saved: all };
}

function difference(a: Movement, b: Movement): Movement {
  const mm = noMovement();
  for (const kind of KINDS) mm[kind] = a[kind] - b[kind];
  return mm;
}

function relieved(movement: Movement, kinds: readonly Kind[]): number {
  let sum = 0;
  for (const kind of kinds) sum += movement[kind];
  return sum;
}
