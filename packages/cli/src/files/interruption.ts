import { constants } from 'node:os';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
const lastDuties = new Set<() => void>();

function interrupted(signal: NodeJS.Signals): void {
  for (const duty of lastDuties) duty();
  process.exit(128 + constants.signals[signal]);
}

/**
 * Has `duty` done, at once and without waiting for anything, if a signal ends the process.
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
