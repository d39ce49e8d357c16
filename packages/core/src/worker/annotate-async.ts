import { checkAsync, checkMarking, inputOf } from '../options/allowed.js';
import type { Annotated, AnnotateOptions, Input, Output } from '../options/options.js';
import type { Progress } from '../pipeline/progress.js';
import { describe, HandlineError } from '../score/errors.js';
import { hasEnded, tellEnd, WorkerError, whenEnded } from './endings.js';
import { type Answer, listen, type Port, type Refusal, type Request } from './port.js';

/** A worker whose script calls `serveAnnotate`: a browser's Worker, or Node's. */
export interface AnnotateWorker extends Port {
  /** Ends the worker at once. */
  terminate(): unknown;
  /** Of Node's Worker: -1 once its thread has ended. */
  readonly threadId?: number;
}

/** What `annotateAsync` needs of an AbortSignal. */
export interface Signal {
  /** True once it is aborted. */
  readonly aborted: boolean;
  /** What it is aborted for. */
  readonly reason: unknown;
  /** Hears of the abort. */
  addEventListener(type: 'abort', listener: () => void): void;
  /** Hears of it no more. */
  removeEventListener(type: 'abort', listener: () => void): void;
}

/** What `annotateAsync` takes beside the options of `annotate`. */
export interface AsyncOptions {
  /** Where the work is done. It serves any number of calls, one after the other, and lives on after them. */
  readonly worker: AnnotateWorker;
  /**
   * An AbortSignal. An abort ends the worker, and with it every call that it still has, because a computation cannot be
   * stopped in any other way; the next call needs a new worker.
   */
  readonly signal?: Signal;
  /** Hears what begins, and how far the work is. */
  readonly onProgress?: (progress: Progress) => void;
}

/** Tells the calls of one worker apart. */
let lastId = 0;

/**
 * `annotate` in a worker, so that the thread that calls it stays free: the same output and report.
 *
 * @param input copied to the worker, so it may be used again at once
 * @param options those of `annotate`; undefined is the defaults
 * @param asyncOptions where the work is done: a `worker`, at least
 * @returns rejected with what `annotate` throws, with the signal's reason, or with what ended the worker: its own error or a
 *   WorkerError. A browser tells nobody that `terminate` was called, so end a worker by the signal there
 */
export async function annotateAsync<T extends Input>(
  input: T,
  options: AnnotateOptions | undefined,
  asyncOptions: AsyncOptions,
): Promise<Annotated<T>> {
  const given = inputOf(input);
  checkAsync(asyncOptions);
  if (options !== undefined) checkMarking(options);
  const { worker, signal, onProgress } = asyncOptions;
  if (signal?.aborted) throw signal.reason;
  if (hasEnded(worker)) throw new WorkerError('the worker has ended; start a new one');
  lastId += 1;
  const id = lastId;
  const stops: (() => void)[] = [];
  try {
    return await new Promise<Annotated<T>>((done, fail) => {
      const heard = (progress: Progress) => {
        try {
          onProgress?.(progress);
        } catch (error) {
          fail(error);
        }
      };
      const hear = (message: unknown) => {
        if (!isAnswer(message) || message.id !== id) return;
        if (message.kind === 'progress') heard(message.progress);
        else if (message.kind === 'refused') fail(refusalFrom(message.error));
        else if (message.kind === 'failed') fail(message.error);
        else done({ output: message.output as Output<T>, report: message.report });
      };
      stops.push(listen(worker, 'message', hear));
      stops.push(
        listen(worker, 'messageerror', () => fail(new WorkerError('the worker sent what cannot be copied'))),
      );
      stops.push(listen(worker, 'error', (error) => fail(causeOf(error))));
      stops.push(listen(worker, 'exit', () => tellEnd(worker)));
      stops.push(whenEnded(worker, () => fail(new WorkerError('the worker ended before its answer'))));
      if (signal) {
        const abort = () => {
          fail(signal.reason);
          worker.terminate();
          tellEnd(worker);
        };
        signal.addEventListener('abort', abort);
        stops.push(() => signal.removeEventListener('abort', abort));
      }
      const request: Request = { handline: 'annotate', id, input: given, options: options ?? {} };
      worker.postMessage(request);
    });
  } finally {
    for (const stop of stops) stop();
  }
}

function isAnswer(message: unknown): message is Answer {
  return (
    typeof message === 'object' && message !== null && 'handline' in message && message.handline === 'answer'
  );
}

/** What a browser's ErrorEvent tells, or Node's error itself. */
function causeOf(error: unknown): unknown {
  if (error instanceof Error) return error;
  const { message } = error as { readonly message?: unknown };
  return new WorkerError(
    typeof message === 'string' && message !== '' ? message : 'the worker could not be started',
  );
}

function refusalFrom({ code, message, place, ...details }: Refusal): HandlineError {
  const own = message.slice(describe('', place).length);
  return new HandlineError(code, own, place, details);
}
