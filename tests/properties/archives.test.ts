import { annotate, clear } from '@handline/core';
import fc from 'fast-check';
import { strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import type { AnnotateOptions } from '#core/options/options.js';
import { rounds } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';

const PATH = 'score/s.musicxml';
const OPTIONS: readonly AnnotateOptions[] = [
  { legend: true, density: 'every' },
  { existing: 'replace', language: 'de', layers: ['carry'] },
];

/** Archives of a score and other files in any order, compressed in ways that are not ours. */
const archive = fc
  .record({
    model: scoreModel,
    level: fc.constantFrom(0 as const, 1 as const, 3 as const, 9 as const),
    memory: fc.constantFrom(0 as const, 4 as const, 12 as const),
    others: fc.uniqueArray(fc.constantFrom('mimetype', 'a.png', 'z/b.txt', 'META-INF/manifest.xml')),
    order: fc.infiniteStream(fc.nat(9)),
    date: fc.date({ min: new Date(1981, 0, 2), max: new Date(2098, 0, 1), noInvalidDate: true }),
    extra: fc.boolean(),
    comment: fc.string({ maxLength: 20, unit: 'grapheme-ascii' }),
    streamed: fc.boolean(),
  })
  .map(({ model, level, memory, others, order, date, extra, comment, streamed }) => {
    const more = extra ? { extra: { 31354: strToU8('theirs') } } : {};
    const container = `<container><rootfiles><rootfile full-path="${PATH}"/></rootfiles></container>`;
    const entries: [string, Zippable[string]][] = [
      ['META-INF/container.xml', [strToU8(container), { level, mtime: date }]],
      [PATH, [strToU8(toXml(model)), { level, mem: memory, mtime: date, comment, ...more }]],
      ...others.map((name): [string, Zippable[string]] => [name, [strToU8(name.repeat(9)), { mtime: date }]]),
    ];
    const places = new Map(entries.map(([name]) => [name, order.next().value]));
    entries.sort(([a], [b]) => (places.get(a) as number) - (places.get(b) as number));
    const bytes = zipSync(Object.fromEntries(entries));
    return streamed ? withDescriptor(bytes) : bytes;
  });

/** The same archive with the score's sizes behind its data, as programs that write a stream leave it. */
function withDescriptor(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tail = bytes.length - 22;
  let at = view.getUint32(tail + 16, true);
  const records: number[] = [];
  for (let index = 0; index < view.getUint16(tail + 10, true); index++) {
    records.push(at);
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  const nameOf = (record: number) => {
    const length = view.getUint16(record + 28, true);
    return new TextDecoder().decode(bytes.subarray(record + 46, record + 46 + length));
  };
  const own = records.find((record) => nameOf(record) === PATH) as number;
  const local = view.getUint32(own + 42, true);
  const end =
    local +
    30 +
    view.getUint16(local + 26, true) +
    view.getUint16(local + 28, true) +
    view.getUint32(own + 20, true);
  const descriptor = new Uint8Array([0x50, 0x4b, 7, 8, ...bytes.subarray(own + 16, own + 28)]);
  const result = Buffer.concat([bytes.subarray(0, end), descriptor, bytes.subarray(end)]);
  const [headers, shift] = [new DataView(result.buffer, result.byteOffset), descriptor.length];
  headers.setUint16(local + 6, headers.getUint16(local + 6, true) | 8, true);
  result.fill(0, local + 14, local + 26);
  headers.setUint16(own + shift + 8, headers.getUint16(own + shift + 8, true) | 8, true);
  for (const record of records) {
    const old = view.getUint32(record + 42, true);
    if (old >= end) headers.setUint32(record + shift + 42, old + shift, true);
  }
  headers.setUint32(tail + shift + 16, view.getUint32(tail + 16, true) + shift, true);
  return new Uint8Array(result);
}

/** Packing takes the time. */
const FEW = rounds(12, 150);

const same = (a: Uint8Array, b: Uint8Array) => Buffer.compare(a, b) === 0;

describe('compressed scores', () => {
  it('mark, mark with other options, clear: the very archive', () => {
    let changed = 0;
    fc.assert(
      fc.property(archive, (original) => {
        let last = original;
        for (const options of OPTIONS) {
          const marked = annotate(original, options).output;
          if (last !== original) expect(same(annotate(last, options).output, marked)).toBe(true);
          last = marked;
          const cleared = clear(last);
          expect(cleared.warnings).toEqual([]);
          expect(same(cleared.output, original)).toBe(true);
        }
        const [before, after] = [unzipSync(original), unzipSync(last)];
        for (const name of Object.keys(before)) if (name !== PATH) expect(after[name]).toEqual(before[name]);
        if (!same(last, original)) changed += 1;
      }),
      FEW,
    );
    expect(changed).toBeGreaterThan(FEW.numRuns / 2);
  });

  it('packed anew by another program: the same text, and a warning unless the kept score came along', () => {
    let compared = 0;
    fc.assert(
      fc.property(archive, fc.constantFrom('kept', 'dropped', 'damaged', 'other'), (original, fate) => {
        const files = unzipSync(annotate(original).output);
        const kept = files['META-INF/handline-original'];
        // Nothing to mark, nothing kept.
        if (kept === undefined) return;
        compared++;
        if (fate === 'dropped') delete files['META-INF/handline-original'];
        if (fate === 'damaged') files['META-INF/handline-original'] = kept.slice(0, -30);
        if (fate === 'other') files['META-INF/handline-original'] = strToU8('nothing of ours');
        const { output, warnings } = clear(zipSync(files));
        expect(warnings.map(({ code }) => code)).toEqual(fate === 'kept' ? [] : ['REPACKED']);
        // What is none of ours stays, whatever its name.
        const own = fate === 'other' ? { 'META-INF/handline-original': strToU8('nothing of ours') } : {};
        expect(unzipSync(output)).toEqual({ ...unzipSync(original), ...own });
        const again = annotate(zipSync(files)).output;
        expect(unzipSync(again)[PATH]).toEqual(files[PATH]);
      }),
      FEW,
    );
    expect(compared).toBeGreaterThan(FEW.numRuns / 2);
  });
});
