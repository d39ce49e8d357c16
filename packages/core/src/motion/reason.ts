import { type Line, writtenAs } from '../hands/line.js';
import type { Spelling } from '../keyboard/key-names.js';
import { blackNeighbours, isBlack } from '../keyboard/key-plan.js';
import type { Finger } from '../score/model.js';
import { isStruck, type Use } from './fingers-in-use.js';
import type { TipTable } from './tips.js';

/** What a key asks of the finger on it. */
export type DepthCause =
  | 'black-key'
  | 'front-of-black-key'
  | 'hold-for-short-finger'
  | 'off-the-edge'
  | 'between-black-keys'
  | 'beside-black-key';

/** Why the forearm moves. `cues/reasons.ts` puts it into words. */
export interface DepthReason {
  /** Towards the fallboard, or away from it. */
  readonly direction: 'in' | 'out';
  /** The finger that moves; none where no finger is in use. */
  readonly finger?: Finger;
  /** Another finger, of the next slice, that the move prepares. */
  readonly coming?: Finger;
  /** What the key of the finger that gains asks for; none where the arm only moves on evenly. */
  readonly cause?: DepthCause;
  /** MIDI number of that key. */
  readonly key?: number;
  /** How the score writes that key. */
  readonly spelling?: Spelling;
}

/** mm equivalents that a move must spare a finger to be explained by it: from memory. */
const LEAST_GAIN = 0.3;

/**
 * Why the forearm moves at a slice: the finger in use that gains most by the move, or else the next slice's finger that
 * the move prepares. Undefined where it does not move.
 */
export function depthReason(
  from: number,
  to: number,
  line: Line,
  uses: readonly (readonly Use[])[],
  at: number,
  tips: TipTable,
): DepthReason | undefined {
  if (from === to) return undefined;
  const direction = to > from ? 'in' : 'out';
  const now = uses[at]!;
  const own = gainer(from, to, now, tips);
  if (own) return { direction, finger: own.finger, ...because(own, to > from, line, at) };
  const lead = now.find(isStruck) ?? now[0];
  const mover = { direction, ...(lead && { finger: lead.finger }) } as const;
  const coming = gainer(from, to, uses[at + 1] ?? [], tips);
  return coming ? { ...mover, coming: coming.finger, ...because(coming, to > from, line, at + 1) } : mover;
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

function because(
  use: Use,
  inwards: boolean,
  line: Line,
  at: number,
): Pick<DepthReason, 'cause' | 'key' | 'spelling'> {
  const spelling = writtenAs(line.slices[at]!, use.key);
  return { cause: causeOf(use, inwards), key: use.key, ...(spelling && { spelling }) };
}

function causeOf({ finger, key }: Use, inwards: boolean): DepthCause {
  if (inwards) {
    if (isBlack(key)) return 'black-key';
    return finger === 1 || finger === 5 ? 'hold-for-short-finger' : 'off-the-edge';
  }
  if (isBlack(key)) return 'front-of-black-key';
  return blackNeighbours(key) === 2 ? 'between-black-keys' : 'beside-black-key';
}
