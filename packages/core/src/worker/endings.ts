/** A worker that ended before its answer, could not be started, or sent what cannot be copied: a new one is needed. */
export class WorkerError extends Error {
  /** `WorkerError`. */
  override readonly name = 'WorkerError';
}

/** What every call does when its worker ends, by worker: a browser tells nobody of it. */
const calls = new WeakMap<object, Set<() => void>>();
const ended = new WeakSet<object>();

/** Whether a worker is known to have ended: it answers no more. Node's tells by its `threadId`, a browser's not at all. */
export function hasEnded(worker: { readonly threadId?: number }): boolean {
  return worker.threadId === -1 || ended.has(worker);
}

/** @returns what calls it off */
export function whenEnded(worker: object, act: () => void): () => void {
  const acts = calls.get(worker) ?? new Set();
  calls.set(worker, acts);
  acts.add(act);
  return () => acts.delete(act);
}

/** To be called where a worker was ended, or said that it has. */
export function tellEnd(worker: object): void {
  ended.add(worker);
  for (const act of calls.get(worker) ?? []) act();
}
