import { isFreshStart } from '../../hands/fresh-start.js';
import type { Line } from '../../hands/line.js';
import { subtract, toNumber } from '../../numeric/fraction.js';
import type { CueKey } from '../keys.js';
import type { LayerCues } from '../layer-cues.js';
import { printedLines, type Wording } from '../wording.js';

/**
 * Letters of a text that fit between a note and the next, where they are a quarter note apart, nearer, and nearer than an
 * eighth note: measured on pages that verovio drew. Longer notes have more room, as engravers let it grow (from memory).
 */
const LETTERS_A_QUARTER = 5;
const LETTERS_AN_EIGHTH = 2.5;
export const LETTERS_A_QUICK_NOTE = 1.5;
const GROWTH = 0.6;
const EIGHTH = 0.5;
/** Letters left free behind a text: as wide as the blanks that are written there. */
export const GAP = 2;
/** Letters for which there is room between the note before and this one. */
export function lettersInto({ slices }: Line, at: number): number {
  if (at === 0) return 0;
  const quarters = toNumber(subtract(slices[at]!.onset, slices[at - 1]!.onset));
  if (quarters < EIGHTH) return LETTERS_A_QUICK_NOTE;
  return quarters < 1 ? LETTERS_AN_EIGHTH : LETTERS_A_QUARTER * quarters ** GROWTH;
}

/** Letters of the longest line of a text as printed. */
export function longestLine(text: string): number {
  let longest = 0;
  for (const { length } of printedLines(text).split('\n')) longest = Math.max(longest, length);
  return longest;
}

/** Where the texts of a hand stand along its line, in letters. */
export class Room {
  readonly #starts: number[] = [];
  /** Where the text at a slice ends, with the gap behind it; its start where there is none. */
  readonly #ends: number[] = [];
  #longest = 0;

  /** @param there cues that are printed in any case, by slice */
  constructor(
    line: Line,
    private readonly wording: Wording,
    there: readonly (readonly CueKey[])[],
  ) {
    let at = 0;
    for (let slice = 0; slice < line.slices.length; slice++) {
      at += lettersInto(line, slice);
      this.#starts.push(at);
      this.#ends.push(at);
    }
    for (const [slice, keys] of there.entries()) for (const key of keys) this.take(slice, key);
  }

  take(slice: number, key: CueKey): void {
    const width = longestLine(this.wording[key]) + GAP;
    this.#longest = Math.max(this.#longest, width);
    this.#ends[slice] = Math.max(this.#ends[slice]!, this.#starts[slice]! + width);
  }

  /** Whether a text here stands clear of all others. */
  has(slice: number, key: CueKey): boolean {
    const start = this.#starts[slice]!;
    const end = start + longestLine(this.wording[key]) + GAP;
    for (let at = slice - 1; at >= 0 && this.#starts[at]! > start - this.#longest; at--)
      if (this.#ends[at]! > start) return false;
    for (let at = slice + 1; at < this.#starts.length && this.#starts[at]! < end; at++)
      if (this.#ends[at]! > this.#starts[at]!) return false;
    return true;
  }
}

/**
 * The cues of one layer for which there is room beside those that have theirs, which they take. A rise of the wrist is told with
 * its end or not at all, and no side of the roll twice in a row.
 */
export function cuesWithRoom(line: Line, room: Room, cues: LayerCues): LayerCues {
  const printed = cues.map((): CueKey | undefined => undefined);
  let lastTurn: CueKey | undefined;
  for (let at = 0; at < cues.length; at++) {
    if (isFreshStart(line.slices[at]!)) lastTurn = undefined;
    const key = cues[at];
    if (key === undefined || key === lastTurn || key === 'wrist-level' || !room.has(at, key)) continue;
    const end = key === 'wrist-rises' ? endOfRise(cues, at) : undefined;
    if (end !== undefined && !room.has(end, 'wrist-level')) continue;
    printed[at] = key;
    room.take(at, key);
    if (end !== undefined) {
      printed[end] = 'wrist-level';
      room.take(end, 'wrist-level');
    }
    if (TURNS.includes(key)) lastTurn = key;
  }
  return printed;
}

const TURNS: readonly CueKey[] = ['turn-thumb', 'turn-fifth'];

/** Where the wrist is told to be level; undefined where it rises again first, or the line ends. */
function endOfRise(cues: LayerCues, rise: number): number | undefined {
  let next = rise + 1;
  while (next < cues.length && cues[next] === undefined) next++;
  return cues[next] === 'wrist-level' ? next : undefined;
}
