import { bench, describe } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { planCues } from '#core/cues/cues.js';
import { planMotion } from '#core/motion/motion.js';
import { DENSITIES } from '#core/options/options.js';
import { print, readAndCount, Sums } from '../cues/counts.js';
import { record } from '../docs/figures.js';
import { melody } from '../motion/lines.js';
import { scoresToCount } from '../practice/passages/counting/count-scores.js';

/** How dense the cues are, and how many stand early; recorded over the shared scores only, on which the guides quote them. */
function printCues(): void {
  const files = scoresToCount();
  const sums = new Sums();
  for (const file of files) readAndCount(file, sums);
  print(`${files.length} scores`, sums);
  if (files.length < 100) return;
  const share = (part: number, whole: number) => Number((part / whole).toFixed(2));
  const densities = DENSITIES.map((density) => {
    const texts = sums.texts[density];
    const early = share(sums.early[density], sums.depth[density]);
    return [
      density,
      { beat: share(texts, sums.beats), measure: share(texts, sums.measures), early },
    ] as const;
  });
  const cues = {
    scores: files.length,
    crossings: share(sums.printed, sums.crossings),
    ...Object.fromEntries(densities),
  };
  record((figures) => ({ ...figures, cues: cues as typeof figures.cues }));
}

printCues();

const { line, fingers } = melody(
  'right',
  Array.from({ length: 2000 }, (_, at) => 60 + ((at * 7) % 24)),
  '12345'.repeat(400),
  0.25,
);
const plan = planMotion(line, fingers, handModel());
describe('cues of 2,000 notes', () => {
  for (const density of DENSITIES)
    bench(density, () => void planCues(line, plan, { density, language: 'en' }));
});
