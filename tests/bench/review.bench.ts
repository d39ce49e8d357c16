import { annotate, review } from '@handline/core';
import { bench, describe } from 'vitest';
import { record } from '../docs/figures.js';
import { scoreOf } from '../review/score.js';

/** What a plain score has: scales, arpeggios, chords, five-finger figures, moved by octaves, with a digit on every note. */
const BARS = [
  'C4=1 D4=2 E4=3 F4=1 G4=2 A4=3 B4=4 C5=5',
  'C5=5 B4=4 A4=3 G4=2 F4=1 E4=3 D4=2 C4=1',
  'G4=1 B4=2 D5=3 G5=5 D5=3 B4=2 G4=1 r',
  'C4=1+E4=3 D4=2+F4=4 E4=3+G4=5 F4=1+A4=3 r r',
  'D4=2 E4=3 F#4=4 E4=3 D4=2 C4=1 D4=2 E4=3',
  'C4=1 D4=2 E4=2 F4=3 G4=4 A4=5 G4=4 F4=3',
];

/** @param digits at least */
function score(digits: number): { readonly text: string; readonly digits: number } {
  const right: string[] = [];
  let count = 0;
  while (count < digits) {
    const bar = BARS[(right.length * 5) % BARS.length]!;
    const up = (right.length * 7) % 2;
    right.push(
      bar.replaceAll(/([A-G]#?)(\d)/g, (_, name: string, octave: string) => `${name}${Number(octave) + up}`),
    );
    count += bar.split('=').length - 1;
  }
  return { text: scoreOf({ right: right.join(' | ') }), digits: count };
}

const { text, digits } = score(8000);

/** CPU time, ms: of a busy machine it tells more than the clock. */
function cpu(task: () => void): number {
  const start = process.cpuUsage();
  task();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

/** The target: a review takes at most twice as long as `annotate`. By turns, after the compiler has settled. */
function printRatio(): void {
  const tasks = [() => void annotate(text), () => void review(text)];
  const times = tasks.map((): number[] => []);
  for (let round = 0; round < 13; round++) {
    tasks.forEach((task, nth) => {
      const ms = cpu(task);
      if (round >= 4) times[nth]!.push(ms);
    });
  }
  const [marking, reviewing] = times.map((own) => own.sort((a, b) => a - b)[4]!) as [number, number];
  const ratio = Number((reviewing / marking).toFixed(1));
  console.log(
    `${digits} digits: annotate ${marking.toFixed(0)} ms, review ${reviewing.toFixed(0)} ms of CPU time, ratio ` +
      `${ratio} (aim 2)`,
  );
  record((figures) => ({ ...figures, reviewTime: { digits, ratio } }));
}

printRatio();

describe(`${digits} digits`, () => {
  const settings = { time: 2000, warmupTime: 300 };
  bench('annotate', () => void annotate(text), settings);
  bench('review', () => void review(text), settings);
});
