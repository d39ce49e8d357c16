import type { Line } from '../hands/line.js';
import { isBlack, keyX } from '../keyboard/key-plan.js';
import { compare, toNumber } from '../numeric/fraction.js';
import type { Clock } from '../score/tempo.js';
import { fingersInUse, type GivenFingers, isStruck, type Use } from './fingers-in-use.js';
import type { Crossing } from './plan.js';

/** One hand's line with its fingers. */
export interface FingeredLine {
  readonly line: Line;
  readonly fingers: GivenFingers;
}

/** Crossings of hand over hand, by slice of each line. */
export interface HandCrossings {
  readonly right: readonly (Crossing | undefined)[];
  readonly left: readonly (Crossing | undefined)[];
}

/** Seconds by which rounding may tell equal times apart. */
const ROUNDING = 1e-6;
/** Difficulty in mm equivalents: of the change of sides itself, and per mm of the distance across. From memory. */
const BASE = 6;
const PER_MM = 0.02;

class HandState {
  readonly crossings: (Crossing | undefined)[];
  readonly uses: readonly (readonly Use[])[];
  /** Last slice that this hand has played. */
  at = -1;
  /** True once the crossing that goes on has been noted. */
  isNoted = false;

  constructor(readonly hand: FingeredLine) {
    this.uses = fingersInUse(hand.line, hand.fingers);
    this.crossings = new Array<Crossing | undefined>(hand.line.slices.length).fill(undefined);
  }

  /** Seconds from the start of the score until which a hand's last slice sounds: as long as its longest key. */
  soundsUntil(clock: Clock): number {
    const { onset, struck, held } = this.hand.line.slices[this.at]!;
    let seconds = 0;
    for (const key of struck) seconds = Math.max(seconds, key.seconds);
    for (const key of held) seconds = Math.max(seconds, key.seconds);
    return clock.secondsAt(toNumber(onset)) + seconds;
  }

  next() {
    return this.hand.line.slices[this.at + 1];
  }

  use(at = this.at): readonly Use[] {
    return this.uses[at] ?? [];
  }

  /** mm that the hand has moved sideways to reach its last slice. */
  distance(): number {
    const [before, now] = [this.use(this.at - 1), this.use()];
    return before.length > 0 && now.length > 0 ? Math.abs(centre(now) - centre(before)) : 0;
  }

  note(kind: 'hand-over' | 'hand-under'): void {
    const [from] = this.use(this.at - 1);
    const to = this.use().find(isStruck);
    if (!to || this.isNoted) return;
    this.isNoted = true;
    this.crossings[this.at] = {
      kind,
      from: (from ?? to).finger,
      to: to.finger,
      direction: this.hand.line.hand === 'left' ? 'up' : 'down',
      fromBlack: isBlack((from ?? to).key),
      toBlack: isBlack(to.key),
      difficulty: BASE + PER_MM * this.distance(),
    };
  }
}

/**
 * Where one hand plays wholly beyond the other while both sound: the hand that moves across goes over; the other stays under, which is
 * noted when it strikes there. Lines of the same part.
 *
 * @param clock of their score
 */
export function handCrossings(right: FingeredLine, left: FingeredLine, clock: Clock): HandCrossings {
  const hands = { right: new HandState(right), left: new HandState(left) };
  let over: HandState | undefined;
  for (;;) {
    const moved = advance(hands.right, hands.left);
    if (moved.length === 0) break;
    if (!crossed(hands.right, hands.left, clock)) {
      over = undefined;
      hands.right.isNoted = hands.left.isNoted = false;
      continue;
    }
    over ??= moved.reduce((most, hand) => (hand.distance() > most.distance() ? hand : most));
    for (const hand of moved) hand.note(hand === over ? 'hand-over' : 'hand-under');
  }
  return { right: hands.right.crossings, left: hands.left.crossings };
}

/** Steps to the next onset; gives the hands that play there. */
function advance(right: HandState, left: HandState): readonly HandState[] {
  const [r, l] = [right.next(), left.next()];
  const order = r && l ? compare(r.onset, l.onset) : r ? -1 : 1;
  const moved: HandState[] = [];
  if (r && order <= 0) moved.push(right);
  if (l && order >= 0) moved.push(left);
  for (const hand of moved) hand.at++;
  return moved;
}

function crossed(right: HandState, left: HandState, clock: Clock): boolean {
  const [rights, lefts] = [right.use(), left.use()];
  if (rights.length === 0 || lefts.length === 0) return false;
  for (const own of lefts) for (const other of rights) if (own.key <= other.key) return false;
  const [r, l] = [right.hand.line.slices[right.at]!, left.hand.line.slices[left.at]!];
  const order = compare(r.onset, l.onset);
  if (order === 0) return true;
  const [earlier, later] = order < 0 ? [right, l] : [left, r];
  return earlier.soundsUntil(clock) > clock.secondsAt(toNumber(later.onset)) + ROUNDING;
}

function centre(uses: readonly Use[]): number {
  let sum = 0;
  for (const { key } of uses) sum += keyX(key);
  return sum / uses.length;
}
