import { annotate, drill } from '@handline/core';
import { bench, describe } from 'vitest';
import { record } from '../docs/figures.js';

const ALL = { keys: 'all', kinds: ['major', 'harmonic-minor'], octaves: 4 } as const;

/** Seconds of a whole book, and how much of them is marking, which any score takes. */
function printSeconds(): void {
  drill({ keys: ['C'] });
  const start = performance.now();
  const { output, report } = drill(ALL);
  const seconds = (performance.now() - start) / 1000;
  const again = performance.now();
  annotate(output);
  const marking = (performance.now() - again) / 1000;
  const notes = report.lines.reduce((sum, line) => sum + line.notes, 0);
  console.log(
    `24 keys, 4 octaves, both hands: ${notes} notes in ${seconds.toFixed(1)} s, ` +
      `${(seconds / marking).toFixed(2)} times as long as to mark the sheet alone`,
  );
  record((figures) => ({ ...figures, drill: { notes, ratio: Number((seconds / marking).toFixed(1)) } }));
}

printSeconds();

describe('24 keys, 4 octaves, both hands', () => {
  const { output } = drill(ALL);
  const settings = { time: 3000, warmupTime: 500 };
  bench('drill', () => void drill(ALL), settings);
  bench('annotate of the sheet', () => void annotate(output), settings);
});
