import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planCues } from '#core/cues/cues.js';
import { buildLines } from '#core/hands/build.js';
import { readScore } from '#core/musicxml/read/score.js';
import { toNumber } from '#core/numeric/fraction.js';
import type { Density } from '#core/options/options.js';
import { openSource } from '#core/pipeline/open.js';
import { analyse } from '#core/pipeline/plan.js';
import { settingsOf } from '#core/pipeline/settings.js';
import { editions, FIXTURES } from '../scores.js';

const DENSITIES: readonly Density[] = ['every', 'essential', 'demanding'];
const DEMO = `${FIXTURES}demo/kelp-street-tunes.musicxml`;

interface Count {
  readonly file: string;
  readonly beats: number;
  readonly measures: number;
  readonly cues: Readonly<Record<Density, number>>;
}

/** Texts of both hands in one score at each density, with our fingering in place of the printed one. */
function count(file: string): Count {
  const settings = settingsOf({ existing: 'ignore' });
  const { text, root } = openSource(readFileSync(file, 'utf8'), settings.limits, file);
  const { score } = readScore(root, text, settings);
  const lines = analyse(score, buildLines(score, settings).lines, settings);
  const parts = [...new Set(lines.map(({ line }) => line.part))].map((part) => score.parts[part]!);
  const measures = parts.flatMap((part) => part.measures);
  const cues = { every: 0, essential: 0, demanding: 0 };
  for (const density of DENSITIES) {
    for (const { line, plan } of lines) {
      const context = { measures: score.parts[line.part]!.measures, density, language: 'en' } as const;
      cues[density] += planCues(line, plan, context).length;
    }
  }
  const beats = measures.reduce((sum, { length, beat }) => sum + toNumber(length) / toNumber(beat), 0);
  return { file: file.split('/').at(-1)!, beats, measures: measures.length, cues };
}

function print(title: string, counts: readonly Count[]): void {
  const sum = (of: (count: Count) => number) => counts.reduce((all, own) => all + of(own), 0);
  for (const density of DENSITIES) {
    const cues = sum((own) => own.cues[density]);
    const each = counts.map((own) => own.cues[density] / own.beats);
    console.log(
      `${title}, ${density}: ${cues} texts, ${(cues / sum((own) => own.beats)).toFixed(2)} a beat ` +
        `(densest score ${Math.max(...each).toFixed(2)}), ${(cues / sum((own) => own.measures)).toFixed(2)} a measure`,
    );
  }
}

function check(counts: readonly Count[]): void {
  for (const { file, beats, measures, cues } of counts) {
    expect(cues.essential, file).toBeLessThanOrEqual(beats);
    expect(cues.demanding, file).toBeLessThanOrEqual(measures);
    expect(cues.essential, file).toBeLessThanOrEqual(cues.every);
  }
}

describe('texts on the page', () => {
  it('are at most one a beat when essential and one a measure when demanding, in the demo', () => {
    const demo = count(DEMO);
    print('demo', [demo]);
    check([demo]);
    expect(demo.cues.essential).toBeGreaterThan(demo.cues.demanding);
    expect(demo.cues.demanding).toBeGreaterThan(0);
  });

  it('and in editions', () => {
    const counts = editions().map(count);
    print(`${counts.length} editions`, counts);
    check(counts);
  });
});
