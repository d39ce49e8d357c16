import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { handline } from '../cli/harness.js';
import { ROOT } from '../musicxml/read-source.js';

export const DEMO = join(ROOT, 'fixtures/demo/kelp-street-tunes.musicxml');

export const folder = mkdtempSync(join(tmpdir(), 'handout-'));

/** Makes a handout of that name. */
export async function made(name: string, ...args: string[]): Promise<{ path: string; html: string }> {
  const path = join(folder, `${name}.html`);
  const { code, stderr } = await handline(['handout', ...args, '-o', path, '--force'], folder);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return { path, html: readFileSync(path, 'utf8') };
}
