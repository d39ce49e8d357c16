import { MESSAGES } from '../messages/messages.js';
import type { Draft } from '../score/draft.js';
import type { Warning } from '../score/errors.js';
import type { Hand, Note, Part, Score } from '../score/model.js';
import { Clock } from '../score/tempo.js';
import { assignHands } from './assignment/assign.js';
import { type HandOptions, pianoParts } from './assignment/parts.js';
import type { StaffRole } from './assignment/staves.js';
import { sliceStarts, soundEnds } from './key-downs.js';
import type { Line } from './line.js';
import { slicesOf } from './slices.js';
import { shareDigits } from './stacked-digits.js';

/** Both hands of one player at one part; a hand without notes has no line. */
export interface HandPair {
  /** Index in `Score.parts`. */
  readonly part: number;
  readonly right?: Line;
  readonly left?: Line;
}

/** The lines of all piano parts, right hand before left, and warnings about who plays what. */
export interface BuiltLines {
  readonly lines: readonly Line[];
  /** The same lines by player. */
  readonly pairs: readonly HandPair[];
  readonly warnings: readonly Warning[];
}

/**
 * What each hand plays, part by part. A hand without notes has no line; a part of four staves has two of each hand.
 *
 * @param given notes that go to the player's other hand, by part: ids of struck notes; tied ones follow them
 * @throws HandlineError OPTION where a part or staff that was asked for does not exist
 */
export function buildLines(
  score: Score,
  options: HandOptions = {},
  given?: ReadonlyMap<number, ReadonlySet<number>>,
): BuiltLines {
  const { parts, warnings } = pianoParts(score, options);
  const found = [...warnings];
  const lines: Line[] = [];
  const pairs: HandPair[] = [];
  const words = MESSAGES[options.messages ?? 'en'];
  const keeps = (options.existing ?? 'keep') === 'keep';
  const clock = new Clock(score.tempo);
  for (const part of parts) {
    const { roles, warnings: ofRoles } = assignHands(part, options.staff, words, given?.get(part.index));
    const shared = shareDigits(part, roles, words);
    found.push(...ofRoles);
    if (keeps) found.push(...shared.warnings);
    const stacked = new Set(shared.fingers.keys());
    const ends = soundEnds(part.notes);
    for (const player of struckByHand(part, roles)) {
      const pair: Draft<HandPair> = { part: part.index };
      for (const hand of ['right', 'left'] as const) {
        const notes = player[hand];
        if (notes.length === 0) continue;
        const slices = slicesOf(sliceStarts(notes, ends, clock), part, clock, keeps ? shared : undefined);
        pair[hand] = { hand, part: part.index, slices, stacked };
        lines.push(pair[hand]);
      }
      if (pair.right || pair.left) pairs.push(pair);
    }
  }
  return { lines, pairs, warnings: found };
}

/** The notes that each hand of the two players strikes: tied continuations left out. */
function struckByHand(
  part: Part,
  roles: readonly (StaffRole | undefined)[],
): readonly Readonly<Record<Hand, readonly Note[]>>[] {
  const players: readonly Record<Hand, Note[]>[] = [
    { right: [], left: [] },
    { right: [], left: [] },
  ];
  for (const note of part.notes) {
    const role = roles[note.id];
    if (role !== undefined && note.tiedFrom < 0) players[role.player]![role.hand].push(note);
  }
  return players;
}
