import { readFileSync } from 'node:fs';
import { annotate, clear, HandlineError, type Input, planDigits, readLines } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { FIXTURES } from '../scores.js';

const TUNE = readFileSync(`${FIXTURES}page/hands-across.musicxml`);

function own(bytes: Uint8Array): ArrayBuffer {
  return new Uint8Array(bytes).buffer;
}

function shared(bytes: Uint8Array): Uint8Array {
  const copy = new Uint8Array(new SharedArrayBuffer(bytes.length));
  copy.set(bytes);
  return copy;
}

/** A part of a larger piece of memory. */
function within(bytes: Uint8Array): Uint8Array {
  const larger = new Uint8Array(bytes.length + 20).fill(60);
  larger.set(bytes, 7);
  return larger.subarray(7, 7 + bytes.length);
}

const FORMS: readonly [string, (bytes: Uint8Array) => Input][] = [
  ['a Buffer', (bytes) => Buffer.from(bytes)],
  ['a Uint8Array', (bytes) => new Uint8Array(bytes)],
  ['a part of a Uint8Array', within],
  ['shared memory', shared],
  ['an ArrayBuffer', own],
];

describe.each(FORMS)('%s', (_, form) => {
  const marked = annotate(new Uint8Array(TUNE));

  it('is marked, cleared and read as any other, and comes back as plain bytes', () => {
    const { output, report } = annotate(form(TUNE));
    expect(JSON.stringify(report)).toBe(JSON.stringify(marked.report));
    expect(Buffer.compare(output as Uint8Array, marked.output)).toBe(0);
    const cleared = clear(form(output as Uint8Array)).output;
    expect(Buffer.compare(cleared as Uint8Array, TUNE)).toBe(0);
    for (const bytes of [output, cleared]) expect(Object.getPrototypeOf(bytes)).toBe(Uint8Array.prototype);
    expect(readLines(form(TUNE)).lines.length).toBe(2);
    expect(planDigits(form(marked.output)).lines.length).toBe(2);
  });

  it('comes back as plain bytes also where nothing is changed', () => {
    const { output } = annotate(form(TUNE), { digits: 'none', layers: [] });
    expect(Buffer.compare(output as Uint8Array, TUNE)).toBe(0);
    expect(Object.getPrototypeOf(output)).toBe(Uint8Array.prototype);
    expect((output as Uint8Array).buffer).toBeInstanceOf(ArrayBuffer);
  });
});

it.each([undefined, null, 7, {}, new Uint16Array(4), new DataView(own(TUNE))])('refuses %s', (input) => {
  for (const work of [annotate, clear, readLines, planDigits]) {
    expect(() => work(input as never)).toThrow(HandlineError);
  }
});
