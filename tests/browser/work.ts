import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type * as Core from '@handline/core';
import * as library from '@handline/core';
import { expect } from 'vitest';
import { ROOT } from '../musicxml/read-source.js';
import { LONG } from '../rounds.js';

/** Bytes as what every runtime can take and give: an array of numbers. */
export interface Sample {
  readonly name: string;
  readonly bytes: readonly number[];
}

/** What one runtime makes of one score. */
export interface Made {
  readonly marked: readonly number[];
  readonly report: string;
  readonly cleared: readonly number[];
}

/** In the long rounds the demo, and every form of file that can be read: encodings, an archive, a timewise score. */
export const SAMPLES: readonly Sample[] = [
  ...(LONG ? ['fixtures/demo/kelp-street-tunes.musicxml'] : []),
  ...readdirSync(join(ROOT, 'fixtures/read')).map((name) => `fixtures/read/${name}`),
].map((name) => ({ name, bytes: [...readFileSync(join(ROOT, name))] }));

/** Marks a score and clears it again. Sent to other runtimes as text, so it must stand alone. */
export function work(core: typeof Core, bytes: readonly number[]): Made {
  const options = { legend: true, alternatives: 1, existing: 'replace', language: 'de' } as const;
  const { output, report } = core.annotate(Uint8Array.from(bytes), options);
  const cleared = core.clear(output).output;
  return { marked: [...output], report: JSON.stringify(report), cleared: [...cleared] };
}

/** That another runtime makes of a score what Node does. */
export function expectSame(made: Made, name: string, bytes: readonly number[]): void {
  const expected = work(library, bytes);
  expect(expected.marked, name).not.toEqual(bytes);
  expect(made.report, name).toBe(expected.report);
  expect(Buffer.compare(Buffer.from(made.marked), Buffer.from(expected.marked)), name).toBe(0);
  expect(Buffer.compare(Buffer.from(made.cleared), Buffer.from(bytes)), name).toBe(0);
}

/** The code of a refusal, by the class that the bundle exports. */
export function refuse(core: typeof Core): string {
  try {
    core.annotate('<html></html>');
  } catch (error) {
    return error instanceof core.HandlineError ? error.code : String(error);
  }
  return 'nothing is refused';
}

/** What a worker makes of a score, and of what is no score; an abort, and a worker that fails. Stands alone, as `work`. */
export async function inWorker(core: typeof Core, script: string, bytes: readonly number[]) {
  const start = (text: string) =>
    new Worker(URL.createObjectURL(new Blob([text], { type: 'text/javascript' })));
  const outcome = (call: Promise<unknown>) =>
    call.then(
      () => 'nothing',
      (error: Error & { readonly code?: unknown }) => error,
    );
  const worker = start(script);
  const steps: string[] = [];
  const onProgress = ({ step }: Core.Progress) => steps.push(step);
  const buffer = Uint8Array.from(bytes).buffer;
  const { output, report } = await core.annotateAsync(buffer, { language: 'fr' }, { worker, onProgress });
  const refused = await outcome(core.annotateAsync('<html></html>', {}, { worker }));
  const controller = new AbortController();
  const { signal } = controller;
  const aborting = core.annotateAsync(buffer, {}, { worker, signal, onProgress: () => controller.abort() });
  const aborted = await outcome(aborting);
  const bad = start('self.onmessage = () => { throw new Error("no such script"); };');
  bad.addEventListener('error', (event) => event.preventDefault());
  const broken = await outcome(core.annotateAsync(buffer, {}, { worker: bad }));
  bad.terminate();
  return {
    marked: [...output],
    report: JSON.stringify(report),
    steps,
    refused: refused instanceof core.HandlineError ? `${refused.name} ${refused.code}` : String(refused),
    aborted: aborted instanceof DOMException ? aborted.name : String(aborted),
    broken: String(broken),
  };
}
