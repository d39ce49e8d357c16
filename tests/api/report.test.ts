import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { annotate } from '@handline/core';
import { expect, it } from 'vitest';

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
