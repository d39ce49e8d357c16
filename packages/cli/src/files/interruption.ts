import { constants } from 'node:os';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
const lastDuties = new Set<() => void>();

/** What a signal waits for, and how long at most, ms: a disk that hangs is not waited for. */
const unbroken = new Set<Promise<unknown>>();
const MOST_WAITING = 2000;
let isEnding = false;

function interrupted(signal: NodeJS.Signals): void {
  const end = (): void => {
    for (const duty of lastDuties) duty();
    process.exit(128 + constants.signals[signal]);
  };
  // Whoever sends a second one will not wait.
  if (isEnding || unbroken.size === 0) end();
  isEnding = true;
  setTimeout(end, MOST_WAITING);
  void Promise.allSettled(unbroken).then(end);
}

/**
 * Does what a signal is not to break in the middle, such as a result and the line that tells of it: what has begun is
 * done before the process ends, and nothing begins any more.
 */
export async function withoutBreak(work: () => Promise<void>): Promise<void> {
  if (isEnding) return new Promise(() => undefined);
  const done = work();
  unbroken.add(done);
  try {
    await done;
  } finally {
    unbroken.delete(done);
  }
}

/**
 * Has `duty` done, at once and without waiting for anything, when a signal ends the process.
 *
 * @returns what calls it off again
 */
export function onInterruption(duty: () => void): () => void {
  if (lastDuties.size === 0) for (const signal of SIGNALS) process.on(signal, interrupted);
  lastDuties.add(duty);
  return () => {
    lastDuties.delete(duty);
    if (lastDuties.size === 0) for (const signal of SIGNALS) process.off(signal, interrupted);
  };
}
