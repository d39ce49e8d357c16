import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type * as Core from '@handline/core';
import { ROOT } from '../musicxml/read-source.js';

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

/** The demo, and every form of file that can be read: encodings, an archive, a timewise score. */
export const SAMPLES: readonly Sample[] = [
  'fixtures/demo/kelp-street-tunes.musicxml',
  ...readdirSync(join(ROOT, 'fixtures/read')).map((name) => `fixtures/read/${name}`),
].map((name) => ({ name, bytes: [...readFileSync(join(ROOT, name))] }));

/** Marks a score and clears it again. Sent to other runtimes as text, so it must stand alone. */
export function work(core: typeof Core, bytes: readonly number[]): Made {
  const options = { legend: true, alternatives: 1, existing: 'replace', language: 'de' } as const;
  const { output, report } = core.annotate(Uint8Array.from(bytes), options);
  const cleared = core.clear(output).output;
  return { marked: [...output], report: JSON.stringify(report), cleared: [...cleared] };
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
