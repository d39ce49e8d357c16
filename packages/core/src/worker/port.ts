import type { AnnotateOptions, Input } from '../options/options.js';
import type { Report } from '../options/report.js';
import type { Progress } from '../pipeline/progress.js';
import type { ErrorCode, OptionMistake, Place, Warning } from '../score/errors.js';

/** The end of a channel: a browser's Worker or `self`, Node's Worker or `parentPort`. */
export interface Port {
  /** Sends a copy of plain data to the other end. */
  postMessage(message: unknown): void;
  /** Node's way to listen. */
  on?(type: string, listener: (value: unknown) => void): unknown;
  /** Node's way to stop. */
  off?(type: string, listener: (value: unknown) => void): unknown;
  /** The browser's way to listen. */
  addEventListener?(type: string, listener: (event: unknown) => void): void;
  /** The browser's way to stop. */
  removeEventListener?(type: string, listener: (event: unknown) => void): void;
}

/** What a worker is asked. */
export interface Request {
  readonly handline: 'annotate';
  readonly id: number;
  readonly input: Input;
  readonly options: AnnotateOptions;
}

/** What it answers: any number of times how far it is, and once the outcome. */
export type Answer = { readonly handline: 'answer'; readonly id: number } & (
  | { readonly kind: 'progress'; readonly progress: Progress }
  | { readonly kind: 'done'; readonly output: string | Uint8Array<ArrayBuffer>; readonly report: Report }
  | { readonly kind: 'refused'; readonly error: Refusal }
  | { readonly kind: 'failed'; readonly error: unknown }
);

/** A HandlineError as plain data: a copy of an error keeps its message alone. */
export interface Refusal {
  readonly code: ErrorCode;
  /** The message with its place, as people read it. */
  readonly message: string;
  readonly place: Place;
  readonly warning?: Warning;
  readonly option?: OptionMistake;
}

/** Listens to one kind of event; returns how to stop. In Node the value comes as it is, in a browser in an event. */
export function listen(port: Port, type: string, hear: (value: unknown) => void): () => void {
  if (port.on) {
    port.on(type, hear);
    return () => port.off?.(type, hear);
  }
  const unwrap = (event: unknown) =>
    hear(type === 'message' ? (event as { readonly data: unknown }).data : event);
  port.addEventListener?.(type, unwrap);
  return () => port.removeEventListener?.(type, unwrap);
}
