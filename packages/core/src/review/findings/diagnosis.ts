import type { Cause, CauseName, Found } from '../causes/cause.js';
import { standsFor } from '../causes/hand.js';
import { CAUSES_OF_A_HAND } from '../causes/index-of-causes.js';
import type { Judged } from '../measure/judged.js';
import {
  KINDS,
  type Kind,
  type Movement,
  movementOf,
  noMovement,
  printedMovement,
} from '../measure/kinds.js';
import { isPrinted, type Scene } from '../measure/scene.js';
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
  const before = printedMovement(judged).slice(from, to);
  const after = movementOf(judged, remedy.choice, from, to);
  const saved = before.map((own, nth) => difference(own, after[nth]!));
  const causes = remedy.tie ? CAUSES_OF_A_HAND.filter(isOfDepth) : CAUSES_OF_A_HAND;
  const search = { printed, other, remedy, saved, from, to };
  const inPrint = telling(causes, search, true);
  if (inPrint && explains(inPrint, remedy)) return inPrint;
  const inferred = telling(causes, search, false);
  if (inferred && explains(inferred, remedy)) return inferred;
  return inPrint ?? inferred ?? general(printed, saved, remedy.kinds, from);
}

/** Whether a cause tells of what is saved, and not only of a small part of it. */
function explains({ cause }: Diagnosis, { kinds, saved }: Remedy): boolean {
  if (IMPOSSIBLE.includes(cause)) return true;
  const own = CAUSES_OF_A_HAND.find(({ name }) => name === cause)!;
  return relieved(kinds, own.kinds) >= TELLING * saved;
}

/** Whether one of the fingers that a cause names is in print. */
export function isInPrint(printed: Scene, { slice, key, other }: Found): boolean {
  return (
    isPrinted(printed, slice, key) ||
    (other !== undefined && !other.otherHand && isPrinted(printed, other.slice, other.key))
  );
}

interface Searched {
  readonly printed: Scene;
  readonly other: Scene;
  readonly remedy: Remedy;
  /** mm saved by kind, by slice from `from` up to `to`. */
  readonly saved: readonly Movement[];
  readonly from: number;
  readonly to: number;
}

/** @param inPrint whether a cause counts only at a finger that is in print */
function telling(causes: readonly Cause[], search: Searched, inPrint: boolean): Diagnosis | undefined {
  const { remedy } = search;
  let best: Diagnosis | undefined;
  let most = 0;
  for (const cause of causes) {
    const { name, kinds } = cause;
    const relief = relieved(remedy.kinds, kinds);
    if (name === 'unholdable' ? !remedy.enables : relief <= most) continue;
    if (best && (IMPOSSIBLE.includes(best.cause) || most >= TELLING * remedy.saved)) continue;
    const found = placeOf(cause, search, inPrint);
    if (found) [best, most] = [{ cause: name, found, saved: remedy.kinds }, Math.max(0, relief)];
  }
  return best;
}

/** Where the printed fingering shows a cause, the other one does not, and most is saved of it. */
function placeOf(
  { find, kinds }: Cause,
  { printed, other, saved, from, to }: Searched,
  inPrint: boolean,
): Found | undefined {
  let found: Found | undefined;
  let most = Number.NEGATIVE_INFINITY;
  for (let at = from; at < to; at++) {
    const own = find(printed, at);
    if (!own || find(other, at)?.key === own.key) continue;
    if (inPrint && !isInPrint(printed, own)) continue;
    const here =
      relieved(saved[at - from]!, kinds) + relieved(saved[at - from + 1] ?? noMovement(), kinds) / 2;
    if (here > most) [found, most] = [own, here];
  }
  return found;
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
