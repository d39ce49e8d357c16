import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
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

export function note(step: string, octave: number, inChord = false): string {
  const member = inChord ? '<chord/>' : '';
  return `<note>${member}<pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>1</duration><type>quarter</type></note>`;
}

export function measure(number: number, notes: string): string {
  return `<measure number="${number}"><attributes><divisions>1</divisions></attributes>${notes}</measure>`;
}

/** A score of these measures. */
export function scoreOf(measures: string): string {
  const list = '<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list>';
  return `<score-partwise>${list}<part id="P1">${measures}</part></score-partwise>`;
}

/** A file with the score of these measures. */
export function written(name: string, measures: string): string {
  const path = join(folder, `${name}.musicxml`);
  writeFileSync(path, scoreOf(measures));
  return path;
}
