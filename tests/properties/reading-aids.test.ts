import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { annotate, clear, type LineReport } from '@handline/core';
import { describe, expect, it } from 'vitest';

const DEMO = readFileSync(
  fileURLToPath(new URL('../../fixtures/demo/kelp-street-tunes.musicxml', import.meta.url)),
  'utf8',
);

/** Words such as `(3)` or, at a chord, lines such as `2 (3)`. */
const CHOICE = /(?:<words[^>]*>|&#10;)(?:[1-5] )?\(([1-5](?:, [1-5])*)\)(?=<\/words>|&#10;)/g;

const count = (text: string, pattern: RegExp) => text.match(pattern)?.length ?? 0;
const ours = /<\?handline digit/g;

describe('sparse digits', () => {
  const all = annotate(DEMO);
  const sparse = annotate(DEMO, { digits: 'sparse' });

  it('are fewer, and each is one of the digits on all notes', () => {
    const notes = (text: string) => text.split('<note').map((note) => note.match(ours)?.length ?? 0);
    const [whole, few] = [notes(all.output), notes(sparse.output)];
    expect(few).toHaveLength(whole.length);
    few.forEach((digits, at) => {
      expect(digits).toBeLessThanOrEqual(whole[at]!);
    });
    const share = count(sparse.output, ours) / count(all.output, ours);
    console.log(`sparse, demo: ${(100 * share).toFixed(1)} % of the digits printed`);
    expect(share).toBeLessThan(0.75);
    expect(share).toBeGreaterThan(0.1);
    expect(sparse.report.lines.map(({ slices }) => slices.map(({ fingers }) => fingers))).toEqual(
      all.report.lines.map(({ slices }) => slices.map(({ fingers }) => fingers)),
    );
    expect(clear(sparse.output).output).toBe(DEMO);
  });

  it('begin anew with the measures that are marked', () => {
    const { report } = annotate(DEMO, { digits: 'sparse', measures: { from: '3', to: '4' } });
    for (const line of report.lines) expect(line.fingered).toBeGreaterThan(0);
  });
});

describe('second choices', () => {
  it('are printed in brackets, no more than asked for, and reported', () => {
    const none = annotate(DEMO);
    expect(none.output).not.toMatch(CHOICE);
    expect(none.report.lines[0]!.slices[0]).not.toHaveProperty('alternates');
    const counts = [1, 2].map((alternatives) => {
      const { output, report } = annotate(DEMO, { alternatives, existing: 'replace' });
      const most = report.lines.flatMap(({ slices }) => slices.flatMap(({ alternates }) => alternates ?? []));
      expect(Math.max(...most.map((own) => own.length))).toBeLessThanOrEqual(alternatives);
      const reported = most.reduce((sum, own) => sum + own.length, 0);
      expect(output).not.toContain('alternate="yes"');
      const printed = [...output.matchAll(CHOICE)].flatMap(([, fingers]) => fingers!.split(', '));
      expect(printed).toHaveLength(reported);
      expect(clear(output).output).toBe(DEMO);
      return reported;
    });
    expect(counts[0]).toBeGreaterThan(0);
    expect(counts[1]).toBeGreaterThanOrEqual(counts[0]!);
    const digits = ({ slices }: LineReport) => slices.map(({ fingers }) => fingers);
    expect(annotate(DEMO, { alternatives: 1 }).report.lines.map(digits)).toEqual(
      none.report.lines.map(digits),
    );
  });
});

describe('the legend', () => {
  it('explains the cues that are printed and no others', () => {
    const printed = (output: string) =>
      new Set([...output.matchAll(/<words[^>]*handline-[^>]*>([^<]*)</g)].map(([, text]) => text!));
    const legendOf = (options: Parameters<typeof annotate>[1]) => {
      const [plain, legend] = [annotate(DEMO, options), annotate(DEMO, { ...options, legend: true })];
      const texts = [...printed(plain.output)].flatMap((text) =>
        text.split('&#10;').map((line) => line.trim()),
      );
      const added = [...legend.output.matchAll(/<(?:credit-)?words[^>]*>([^<]*: [^<]*)</g)].map(
        ([, text]) => text!,
      );
      return { texts: new Set(texts), legend: added.join('\n') };
    };
    const { texts, legend } = legendOf({ wording: { in: 'aa', out: 'bb', lean: 'cc', 'hand-over': 'dd' } });
    for (const own of ['aa', 'bb', 'cc', 'dd']) expect(legend.includes(`${own}: `)).toBe(texts.has(own));
    expect(texts.size).toBeGreaterThan(1);
  });
});

it('findings about the motion have their place in the score', () => {
  const { report } = annotate(DEMO);
  for (const line of report.lines) {
    const measures = new Set(line.slices.map(({ measure }) => measure));
    for (const { measure, beat, message } of line.findings) {
      expect(measures.has(measure)).toBe(true);
      expect(beat).toBeGreaterThanOrEqual(1);
      expect(message).toMatch(/^\S.*\S$/);
    }
  }
});
