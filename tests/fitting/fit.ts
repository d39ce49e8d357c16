import { writeFileSync } from 'node:fs';
import { hasSamples, loadSamples, type Sample } from './data.js';
import { summary, type Tally, tally } from './evaluate.js';
import { featuresOf, type SliceFeatures } from './features.js';
import { type Regime, SCALE, train } from './train.js';
import { writeTables } from './write-tables.js';

const env = (name: string, value: number): number => Number(process.env[name] ?? value);
const REGIME: Regime = { epochs: env('EPOCHS', 14), rate: env('RATE', 0.04), pull: env('PULL', 14) };
const DEPTH_WEIGHTS = (process.env.DEPTH ?? '1').split(',').map(Number);

/** Works held out together, so that each part has a like mix; works are sorted by digits and dealt out. */
const FOLDS = [
  ['ClementiM/O42'],
  [
    'HanonCL/virtuoso-pianist-pt1',
    'MozartWA/KV545',
    'SchumannR/O15',
    'BendaJA/Benda_SonateG3',
    'ScriabinA/O11',
  ],
  ['DiabelliA/O163', 'GriegE/O65', 'ChopinFF/O6', 'KuhlauF/O20', 'JoplinS/winners'],
  ['ChopinFF/O10', 'BeethovenLv/O2', 'BachJS/BWV928', 'SchumannR/O68', 'BurgmullerJFF/ploermel'],
  ['CzernyC/O840', 'ChopinFF/O45', 'RachmaninoffS/O23', 'TchaikovskyPI/O39'],
];

function digitsOf(sample: Sample): number {
  return sample.digits.flat(2).length;
}

function main(): void {
  if (!hasSamples()) {
    console.log('The shared scores are not here: nothing to fit.');
    return;
  }
  const samples = loadSamples();
  const counts = new Map<string, number>();
  for (const sample of samples) counts.set(sample.work, (counts.get(sample.work) ?? 0) + digitsOf(sample));
  const features = new Map<Sample, SliceFeatures[]>(
    samples.map((sample) => [sample, featuresOf(sample, SCALE)]),
  );
  const learn = (chosen: readonly Sample[]): Float64Array =>
    train(
      chosen.map((sample) => ({
        slices: features.get(sample)!,
        weight: Math.sqrt(1000 / Math.max(1, counts.get(sample.work)!)),
      })),
      REGIME,
    );
  if (process.argv.includes('--write')) {
    const weights = learn(samples);
    writeTables(weights);
    console.log(
      'on the works fitted:',
      DEPTH_WEIGHTS.map((d) => JSON.stringify(summary(tally(samples, weights, d)))).join(' '),
    );
    return;
  }
  const tallies: Tally[] = DEPTH_WEIGHTS.map(() => new Map());
  FOLDS.forEach((held, nth) => {
    const weights = learn(samples.filter(({ work }) => !held.includes(work)));
    if (process.env.SAVE) writeFileSync(`${process.env.SAVE}.${nth}.bin`, Buffer.from(weights.buffer));
    const unseen = samples.filter(({ work }) => held.includes(work));
    DEPTH_WEIGHTS.forEach((depth, at) => {
      tally(unseen, weights, depth, tallies[at]!);
    });
  });
  DEPTH_WEIGHTS.forEach((depth, at) => {
    console.log(`depth ${depth}:`, JSON.stringify(summary(tallies[at]!)));
  });
}

main();
