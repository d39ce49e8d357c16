import { annotateInSteps } from '../annotate.js';
import { checkPort } from '../options/allowed.js';
import { HandlineError } from '../score/errors.js';
import { type Answer, listen, type Port, type Request } from './port.js';

/**
 * Answers `annotateAsync` in a worker: the whole of a worker's script beside its imports. Messages of others pass by.
 *
 * @param port `self` in a browser's worker, `parentPort` of `node:worker_threads` in Node
 */
export function serveAnnotate(port: Port): void {
  checkPort(port);
  listen(port, 'message', (message) => {
    if (isRequest(message)) answer(port, message);
  });
}

function isRequest(message: unknown): message is Request {
  return (
    typeof message === 'object' &&
    message !== null &&
    'handline' in message &&
    message.handline === 'annotate'
  );
}

function answer(port: Port, { id, input, options }: Request): void {
  const send = (own: Own) => port.postMessage({ handline: 'answer', id, ...own });
  try {
    const { output, report } = annotateInSteps(input, options, (progress) =>
      send({ kind: 'progress', progress }),
    );
    send({ kind: 'done', output, report });
  } catch (error) {
    send(refusalOf(error));
  }
}

/** An answer without what all have. */
type Own = Answer extends infer A ? (A extends Answer ? Omit<A, 'handline' | 'id'> : never) : never;

function refusalOf(error: unknown): Own {
  if (!(error instanceof HandlineError)) return { kind: 'failed', error };
  const { code, message, place, warning, option } = error;
  const details = { ...(warning && { warning }), ...(option && { option }) };
  return { kind: 'refused', error: { code, message, place, ...details } };
}
