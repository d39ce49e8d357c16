import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { annotate, planDigits, reasonText } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { editions } from '../scores.js';

const DEMO = fileURLToPath(new URL('../../fixtures/demo/kelp-street-tunes.musicxml', import.meta.url));

it('the report tells costs with six decimal places at most, and a line costs what its slices do', () => {
  const { report } = annotate(readFileSync(DEMO, 'utf8'));
  let told = 0;
  for (const { movement, usage, hardest, slices } of report.lines) {
    const terms = slices.flatMap((slice) => Object.values(slice.terms));
    for (const own of [movement, usage, ...hardest.map((measure) => measure.movement), ...terms]) {
      expect(own).toBe(Number(own.toFixed(6)));
      told++;
    }
    expect(terms.reduce((sum, own) => sum + own, 0)).toBeCloseTo(usage, 5);
    expect(slices.reduce((sum, slice) => sum + slice.movement, 0)).toBeCloseTo(movement, 5);
    for (const slice of slices) expect(slice.movement).toBeGreaterThanOrEqual(0);
    const most = Math.max(...slices.map((slice) => Object.keys(slice.terms).length));
    expect(most).toBeGreaterThan(3);
  }
  expect(report.lines).toHaveLength(2);
  expect(told).toBeGreaterThan(1000);
});

it('arm, contour, roll, depth and its reason are those of the plan of the digits in print, in the language asked for', () => {
  const text = readFileSync(DEMO, 'utf8');
  let told = 0;
  for (const language of ['en', 'de', 'fr', 'es', 'it'] as const) {
    const { output, report } = annotate(text, { language, layers: [] });
    const { lines } = planDigits(output);
    expect(lines.length).toBe(report.lines.length);
    for (const [at, { plan }] of lines.entries()) {
      const { slices } = report.lines[at]!;
      expect(slices.length).toBe(plan.slices.length);
      for (const [nth, { arm, contour, roll, depth, depthChange, reason }] of slices.entries()) {
        const own = plan.slices[nth]!;
        expect([arm, contour, roll]).toEqual(
          [own.arm, own.contour, own.roll].map((value) => expect.closeTo(value, 6)),
        );
        expect([depth, depthChange]).toEqual([own.depth, own.depthChange]);
        expect(reason).toBe(own.reason ? reasonText(own.reason, language) : '');
        if (reason !== '') told++;
      }
    }
  }
  expect(told).toBeGreaterThan(100);
});

describe('the hardest measures', () => {
  const MOST = 5;
  const scores = [DEMO, ...editions(1).filter((path) => !path.endsWith('.mxl'))].map((path) =>
    readFileSync(path, 'utf8'),
  );

  it('are those with the most movement a key, worst first, five at most', () => {
    let ordered = 0;
    for (const score of scores) {
      for (const { hardest, slices } of annotate(score, { existing: 'ignore' }).report.lines) {
        const movements = [...new Set(slices.map(({ measure }) => measure))].map((measure) => {
          const own = slices.filter((slice) => slice.measure === measure);
          const keys = own.reduce((sum, slice) => sum + slice.keys.length, 0);
          return { measure, movement: own.reduce((sum, slice) => sum + slice.movement, 0) / keys };
        });
        movements.sort((a, b) => b.movement - a.movement);
        const expected = movements.slice(0, MOST);
        expect(hardest).toHaveLength(expected.length);
        hardest.forEach(({ measure, movement }, nth) => {
          expect(movement).toBeCloseTo(expected[nth]!.movement, 4);
          const own = movements.find((other) => other.measure === measure)!;
          expect(own.movement).toBeCloseTo(movement, 4);
          if (nth > 0 && movement < hardest[nth - 1]!.movement) ordered++;
        });
      }
    }
    expect(ordered).toBeGreaterThan(4);
  });
});
