import { pitchClassName } from '../keyboard/key-names.js';
import { blackNeighbours, isBlack } from '../keyboard/key-plan.js';
import { isStruck, type Use } from './fingers-in-use.js';
import type { TipTable } from './tips.js';

/** mm equivalents that a move must spare a finger to be explained by it: from memory. */
const LEAST_GAIN = 0.3;

/**
 * Why the forearm moves, for people: the finger in use that gains most by the move, or else the next slice's finger
 * that the move prepares.
 */
export function depthReason(
  from: number,
  to: number,
  now: readonly Use[],
  next: readonly Use[],
  tips: TipTable,
): string {
  if (from === to) return '';
  const own = gainer(from, to, now, tips);
  if (own) return `${subject(own, to > from)}: ${because(own, to > from)}`;
  const coming = gainer(from, to, next, tips);
  const lead = now.find(isStruck) ?? now[0];
  const mover = `${lead ? name(lead) : 'the arm'} moves ${to > from ? 'in' : 'out'}`;
  return coming
    ? `${mover}, ready for ${name(coming)}: ${because(coming, to > from)}`
    : `${mover}: the arm moves on evenly`;
}

function gainer(from: number, to: number, uses: readonly Use[], tips: TipTable): Use | undefined {
  let best: Use | undefined;
  let most = LEAST_GAIN;
  for (const use of uses) {
    const gain = tips.discomfort(use.finger, use.key, from) - tips.discomfort(use.finger, use.key, to);
    if (gain > most) [best, most] = [use, gain];
  }
  return best;
}

function name(use: Use): string {
  return use.finger === 1 ? 'the thumb' : `${use.finger}`;
}

function subject(use: Use, inwards: boolean): string {
  return `${name(use)} ${inwards ? 'goes in' : 'comes out'}`;
}

function because(use: Use, inwards: boolean): string {
  const key = pitchClassName(use.key);
  if (inwards) {
    if (isBlack(use.key)) return `${key} is a black key`;
    return use.finger === 1 || use.finger === 5
      ? `it is short and needs a hold on ${key}`
      : `it would lie too near the edge of ${key}`;
  }
  if (isBlack(use.key)) return `${key} plays lighter nearer its front`;
  return blackNeighbours(use.key) === 2
    ? `${key} lies between two black keys`
    : `${key} has a black key beside it`;
}
