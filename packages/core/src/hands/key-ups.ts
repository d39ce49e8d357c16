import type { Clock } from '../score/tempo.js';
import { GRACE_SECONDS, type KeyDown, ROUNDING, type SliceStart } from './key-downs.js';

/** A key from its key-down to its key-up. */
export interface KeyPress {
  readonly keyDown: KeyDown;
  /** Slice that strikes it. */
  readonly since: number;
  /** First slice that finds it up again; the number of slices where it is down to the end. */
  readonly until: number;
  /** When it goes up, in seconds. */
  readonly upAt: number;
}

/** What every slice strikes, with the key-up of each key. */
export function keyPresses(starts: readonly SliceStart[], clock: Clock): KeyPress[][] {
  const all: KeyPress[][] = [];
  for (let since = 0; since < starts.length; since++) {
    const presses: KeyPress[] = [];
    for (const keyDown of starts[since]!.keyDowns) presses.push(pressOf(keyDown, since, starts, clock));
    all.push(presses);
  }
  return all;
}

function pressOf(keyDown: KeyDown, since: number, starts: readonly SliceStart[], clock: Clock): KeyPress {
  const start = starts[since]!;
  // A grace note that no tie holds on is up as soon as anything follows.
  if (start.order < 0 && keyDown.end <= start.onset) {
    const upAt = starts[since + 1]?.seconds ?? start.seconds + GRACE_SECONDS;
    return { keyDown, since, until: since + 1, upAt };
  }
  let until = since + 1;
  while (until < starts.length && !isUpAt(keyDown, starts[until]!)) until++;
  const released = clock.secondsAt(keyDown.release);
  const upAt = until < starts.length ? Math.min(released, starts[until]!.seconds) : released;
  return { keyDown, since, until, upAt };
}

/**
 * Whether a later slice finds a key up, or strikes it again. A key that ends with a grace note's onset stays down
 * through it, unless the grace note follows it in its voice.
 */
function isUpAt({ key, notes, release }: KeyDown, { onset, order, keyDowns }: SliceStart): boolean {
  for (const other of keyDowns) if (other.key === key) return true;
  if (release < onset - ROUNDING) return true;
  if (release > onset + ROUNDING) return false;
  if (order === 0) return true;
  const voices = new Set(keyDowns.flatMap((other) => other.notes.map((note) => note.voice)));
  return notes.some((note) => voices.has(note.voice));
}
