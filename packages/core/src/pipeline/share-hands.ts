import { canHold, keysForOtherHand } from '../fingering/other-hand.js';
import { TakenKeys } from '../fingering/taken-keys.js';
import { type BuiltLines, buildLines, type HandPair } from '../hands/build.js';
import { playingContext } from '../hands/context.js';
import { soundEnds } from '../hands/key-downs.js';
import { type Line, otherHand, type Slice } from '../hands/line.js';
import type { Hand, Part, Score } from '../score/model.js';
import { Clock } from '../score/tempo.js';
import { isPrinted } from './printed.js';
import type { Settings } from './settings.js';

/** A chord beyond one hand of which the other takes a part. */
export interface Share {
  /** Index in `BuiltLines.pairs`. */
  readonly pair: number;
  readonly takenBy: Hand;
  /** What goes to the other hand: MIDI numbers, ascending, and ids of the struck notes. */
  readonly keys: readonly number[];
  readonly taken: ReadonlySet<number>;
  /** A note that stays, by id. */
  readonly kept: number;
}

/** Lines with what the hands take from each other. */
export interface SharedLines extends BuiltLines {
  /** The lines before anything is shared. */
  readonly written: readonly Line[];
  readonly shares: readonly Share[];
}

/**
 * The lines of both hands, where `shareHands` is set with what one hand can take easily of a chord beyond the other. All
 * offers are made on the lines as written; those that prove hard or unplayable beside the others are taken back until all
 * that are left are easy.
 *
 * @throws HandlineError OPTION where a part or staff that was asked for does not exist
 */
export function sharedLines(score: Score, settings: Settings): SharedLines {
  let built = buildLines(score, settings);
  if (!settings.shareHands) return { ...built, written: built.lines, shares: [] };
  const written = built.lines;
  const clock = new Clock(score.tempo);
  let shares = built.pairs.flatMap((_, pair) => offersOf(score, built.pairs, pair, settings, clock));
  for (;;) {
    built = buildLines(score, settings, givenNotes(shares, built.pairs));
    const kept = easyShares(score, shares, built.pairs, settings, clock);
    if (kept.length === shares.length) return { ...built, written, shares };
    shares = kept;
  }
}

function givenNotes(
  shares: readonly Share[],
  pairs: readonly HandPair[],
): ReadonlyMap<number, ReadonlySet<number>> {
  const given = new Map<number, Set<number>>();
  for (const { pair, taken } of shares) {
    const { part } = pairs[pair]!;
    const own = given.get(part) ?? new Set();
    given.set(part, own);
    for (const note of taken) own.add(note);
  }
  return given;
}

/** What the hands of one player could give to each other. */
function offersOf(
  score: Score,
  pairs: readonly HandPair[],
  pair: number,
  settings: Settings,
  clock: Clock,
): Share[] {
  const hands = pairs[pair]!;
  const part = score.parts[hands.part]!;
  // A line holds the notes of one part alone.
  if (part.partner) return [];
  const ends = soundEnds(part.notes);
  const offers: Share[] = [];
  for (const from of ['right', 'left'] as const) {
    const takenBy = otherHand(from);
    const line = hands[from];
    if (!line || !plays(takenBy, settings)) continue;
    const hand = settings.model[from];
    const idle: Line = { hand: takenBy, part: part.index, slices: [] };
    const other = { line: hands[takenBy] ?? idle, hand: settings.model[takenBy], ends };
    for (const slice of line.slices) {
      const all = slice.struck.map(({ key }) => key);
      if (all.length < 2 || canHold(all, hand, from, false, slice.rolled)) continue;
      const keys = keysForOtherHand(slice, from, hand, other, clock);
      const taken = notesOn(keys, slice);
      if (keys.length > 0 && taken.every((note) => mayGo(note, part, line, settings))) {
        const kept = slice.struck.find(({ key }) => !keys.includes(key))!.notes[0]!;
        offers.push({ pair, takenBy, keys, taken: new Set(taken), kept });
      }
    }
  }
  return offers;
}

/** Where the user names staves, a hand without one does not play. */
function plays(hand: Hand, { staff }: Settings): boolean {
  return staff === undefined || (staff[hand]?.length ?? 0) > 0;
}

function notesOn(keys: readonly number[], { struck }: Slice): number[] {
  return struck.flatMap(({ key, notes }) => (keys.includes(key) ? notes : []));
}

/** A digit that stays in print, or a word such as "m.s.", has already said whose the note is. */
function mayGo(id: number, part: Part, line: Line, { existing }: Settings): boolean {
  const note = part.notes[id]!;
  return note.handWord === undefined && (existing === 'replace' || !isPrinted(note, line));
}

/** @param pairs with all that is given in the lines of those who take it */
function easyShares(
  score: Score,
  shares: readonly Share[],
  pairs: readonly HandPair[],
  settings: Settings,
  clock: Clock,
): Share[] {
  const known = new Map<Line, TakenKeys>();
  const linesOf = (line: Line): TakenKeys => {
    const own =
      known.get(line) ??
      new TakenKeys(line, settings.model[line.hand], playingContext(line, score.parts[line.part]!, clock));
    known.set(line, own);
    return own;
  };
  return shares.filter(({ pair, takenBy, taken, kept }) => {
    const hands = pairs[pair]!;
    return linesOf(hands[otherHand(takenBy)]!).isPlayable(kept) && linesOf(hands[takenBy]!).areEasy(taken);
  });
}
