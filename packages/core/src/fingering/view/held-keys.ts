import type { Slice, SliceKey } from '../../hands/line.js';
import type { Kept } from './candidates.js';
import type { Wanted } from './holds.js';

/** Seconds that a silent substitution, the change of finger on a held key, takes at least (from memory). */
export const SUBSTITUTION_SECONDS = 0.35;
/** More than any key's number. */
const MOST_KEYS = 256;
const ANY_FINGER = 0b111110;

/** A key of a slice, in right-hand coordinates, and as the line has it. */
interface Member extends Wanted {
  readonly given: SliceKey;
}

/** The slice before, as far as it matters. */
type Before = Pick<Kept, 'keys' | 'candidates'>;

/**
 * The held keys of a line, slice after slice. A key that the hand has let go, or could not take, is not held again; and a key
 * is let go where none of the fingers that can have held it so far reaches on, unless there is time for another to take over.
 */
export class HeldKeys {
  readonly #letGo = new Set<number>();
  /** By held key: the fingers that can hold it up to the slice before, a bit for each. */
  readonly #holders = new Map<number, number>();

  /** Whether the hand still holds a held key of a slice. */
  holds({ key, since }: SliceKey): boolean {
    return !this.#letGo.has(idOf(key, since!));
  }

  /**
   * Takes in what the keys of a slice can be played with.
   *
   * @param members the keys that were asked for, ascending
   * @param before the slice before
   * @returns false where the hand lets a key go, so that the slice is to be looked at again
   */
  settle(
    { index, seconds }: Slice,
    members: readonly Member[],
    { kept, candidates }: Kept,
    before: Before | undefined,
  ): boolean {
    for (let nth = 0; nth < kept.length; nth++) {
      const { struck, key, given } = members[kept[nth]!]!;
      if (struck) continue;
      const id = idOf(given.key, given.since!);
      let holders = fingersOn(nth, candidates);
      if (seconds < SUBSTITUTION_SECONDS) holders &= this.#holders.get(id) ?? strikersOf(key, before);
      this.#holders.set(id, holders);
      if (holders > 0) continue;
      this.#letGo.add(id);
      return false;
    }
    if (kept.length === members.length) return true;
    for (let at = 0; at < members.length; at++) {
      const { given } = members[at]!;
      if (!kept.includes(at)) this.#letGo.add(idOf(given.key, given.since ?? index));
    }
    return true;
  }
}

/** The fingers that can have struck a key of the slice before. */
function strikersOf(key: number, before: Before | undefined): number {
  const at = before?.keys.indexOf(key) ?? -1;
  return at < 0 ? ANY_FINGER : fingersOn(at, before!.candidates);
}

function fingersOn(nth: number, candidates: Kept['candidates']): number {
  let fingers = 0;
  for (const candidate of candidates) fingers |= 1 << candidate.fingers[nth]!;
  return fingers;
}

function idOf(key: number, since: number): number {
  return since * MOST_KEYS + key;
}
