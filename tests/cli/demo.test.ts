import { readFileSync } from 'node:fs';
import { annotate } from '@handline/core';
import { describe, expect, test } from 'vitest';
import { DEMO, handline, workFolder } from './harness.js';

const folder = workFolder();
const score = readFileSync(DEMO, 'utf8');

describe('the demo score', () => {
  test('has what a pianist meets, in both hands', () => {
    for (const element of [
      '<backup>',
      '<chord/>',
      '<grace',
      '<repeat direction="backward"/>',
      '<ending number="2"',
      '<pedal',
      '<slur',
      '<turn/>',
      '<trill-mark/>',
      '<mordent/>',
      '<arpeggiate/>',
      '<dynamics>',
      '<wedge',
      '<fermata',
      '<time-modification>',
      '<tied type="start"/>',
      '<staccato/>',
      '<voice>2</voice>',
      '<voice>6</voice>',
      '<fingering',
    ])
      expect(score).toContain(element);
    expect(new Set(score.match(/<fifths>-?\d<\/fifths>/g)).size).toBeGreaterThanOrEqual(4);
    expect(score.match(/<measure /g)).toHaveLength(45);
  });

  test('is marked in both hands; clear brings it back byte for byte', async () => {
    const run = await handline(['mark', DEMO, '-o', 'marked.musicxml'], folder.path);
    expect({ code: run.code, stderr: run.stderr }).toEqual({ code: 0, stderr: '' });
    const summary = run.stdout.toString();
    // The right hand has one digit of the teacher's own, which stays and counts.
    const [, right, ofRight, left, ofLeft] =
      /\nright hand +(\d+) of (\d+) \(1 kept\) .*\nleft hand +(\d+) of (\d+) /.exec(summary) ?? [];
    expect([right, left]).toEqual([ofRight, ofLeft]);
    expect(summary).toContain('marked.musicxml');
    expect(summary.split('\n').length).toBeLessThanOrEqual(24);
    const back = await handline(['clear', 'marked.musicxml'], folder.path);
    expect(back.stdout.toString() === score).toBe(true);
  });

  test('one hand, some measures, no cues: only those digits are written', async () => {
    const args = [
      'mark',
      DEMO,
      '--hands',
      'left',
      '--measures',
      '20-29',
      '--layers',
      'none',
      '--json',
      '-o',
      'out.musicxml',
    ];
    const run = await handline(args, folder.path);
    expect(run.code).toBe(0);
    const { files } = JSON.parse(run.stdout.toString());
    expect(files[0].lines.map((line: { hand: string }) => line.hand)).toEqual(['left']);
    const measures = readFileSync(folder.at('out.musicxml'), 'utf8')
      .split(/(?=<measure )/)
      .slice(1);
    const original = score.split(/(?=<measure )/).slice(1);
    const touched = measures.flatMap((measure, index) => (measure === original[index] ? [] : [index + 1]));
    expect(touched).toEqual([20, 21, 22, 23, 24, 25, 26, 27, 28, 29]);
    // One blank text carries the record of the digits.
    expect(measures.join('').match(/<words/g)).toHaveLength(1 + (score.match(/<words/g)?.length ?? 0));
    expect(measures[19]!.match(/<words[^>]*>\u00a0<\/words>/g)).toHaveLength(1);
  });

  test("a user's own wording stands in the marked score, the other words stay", async () => {
    folder.put('words.json', JSON.stringify({ out: 'to the body' }));
    const run = await handline(['mark', DEMO, '-o', 'own.musicxml', '--wording', 'words.json'], folder.path);
    expect({ code: run.code, stderr: run.stderr }).toEqual({ code: 0, stderr: '' });
    const marked = readFileSync(folder.at('own.musicxml'), 'utf8');
    const words = [...marked.matchAll(/<words[^>]*>([^<]*)<\/words>/g)].map(([, text]) =>
      text!.replaceAll(/\s*&#10;/g, ' ').trimEnd(),
    );
    expect(words).toContain('to the body');
    expect(words).toContain('thumb passes');
    const { report } = annotate(readFileSync(DEMO), { wording: { out: 'to the body' } });
    const cues = report.lines.flatMap(({ slices }) => slices.flatMap(({ cue }) => cue ?? []));
    expect(cues).toContain('to the body');
    expect(cues.filter((cue) => /^(?:forearm )?out\b/.test(cue))).toEqual([]);
  });
});
