import { record } from '../docs/figures.js';
import { hasSamples, loadSamples, type Sample } from './data.js';
import { summary, type Tally, tally } from './evaluate.js';
import { featuresOf } from './features.js';
import { type Regime, SCALE, type Trainee, train } from './train.js';
import { writeTables } from './write-tables.js';

/** The tables for a note's place see the most of its surroundings and would learn works by heart soonest. */
const REGIME: Regime = { epochs: 14, rate: 0.04, pull: 14, pulls: { 'habit: place': 3 } };

/** Parts of the works: the largest alone, the others so that each mixes long and short, easy and hard. */
const PARTS: readonly (readonly string[])[] = [
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

/** The trainees of the works chosen. */
type Pick = (chosen: (work: string) => boolean) => Trainee[];

function digitsOf(sample: Sample): number {
  return sample.digits.flat(2).length;
}

/** Each work weighs by the root of its digits, so that no long one drowns the others. */
function trainees(samples: readonly Sample[]): Pick {
  const counts = new Map<string, number>();
  for (const sample of samples) counts.set(sample.work, (counts.get(sample.work) ?? 0) + digitsOf(sample));
  const all = samples.map((sample) => ({
    work: sample.work,
    slices: featuresOf(sample, SCALE),
    weight: Math.sqrt(1000 / Math.max(1, counts.get(sample.work)!)),
  }));
  return (chosen) => all.filter(({ work }) => chosen(work));
}

/** Weights that never saw the works of these parts. */
function without(pick: Pick, parts: readonly number[], log?: (line: string) => void): Float64Array {
  const unseen = parts.flatMap((part) => PARTS[part]!);
  return train(
    pick((work) => !unseen.includes(work)),
    REGIME,
    log,
  );
}

/** All pairs of parts. */
const PAIRS = PARTS.flatMap((_, one) => PARTS.slice(one + 1).map((__, nth) => [one, one + 1 + nth] as const));

/** What a single fit knows by heart of its works, the mean of many that each miss other works does not. */
function mean(fits: readonly Float64Array[]): Float64Array {
  return fits[0]!.map((_, at) => fits.reduce((sum, fit) => sum + fit[at]!, 0) / fits.length);
}

function print(name: string, found: Tally): void {
  const { macro, micro } = summary(found);
  console.log(`${name}: macro ${macro.toFixed(4)}, micro ${micro.toFixed(4)}`);
  const rounded = { macro: Number(macro.toFixed(3)), micro: Number(micro.toFixed(3)) };
  record((figures) => ({ ...figures, fit: { ...figures.fit, [name]: rounded } }));
}

/** Weights from all works: the mean of fits that each leave two parts out. */
function write(samples: readonly Sample[], pick: Pick): void {
  const weights = mean(PAIRS.map((pair) => without(pick, pair, console.log)));
  writeTables(weights);
  print('on the works fitted', tally(samples, weights, new Map()));
}

/** Every part judged by the mean of fits that leave it and two others out. */
function crossValidate(samples: readonly Sample[], pick: Pick): void {
  const halves = loadSamples(2);
  const [blind, hinted, textures]: Tally[] = [new Map(), new Map(), new Map()];
  const fits = new Map<string, Float64Array>();
  const fitWithout = (parts: readonly number[]): Float64Array => {
    const id = [...parts].sort().join();
    const known = fits.get(id) ?? without(pick, parts);
    fits.set(id, known);
    return known;
  };
  PARTS.forEach((works, part) => {
    const others = PAIRS.filter((pair) => !pair.includes(part));
    const weights = mean(others.map((pair) => fitWithout([part, ...pair])));
    const unseen = ({ work }: Sample): boolean => works.includes(work);
    tally(samples.filter(unseen), weights, blind!, textures!);
    tally(halves.filter(unseen), weights, hinted!);
  });
  for (const [work, [hits, digits]] of [...blind!].sort()) {
    console.log(`${(hits / digits).toFixed(3)} ${String(digits).padStart(6)}  ${work}`);
  }
  for (const [texture, [hits, digits]] of [...textures!].sort()) {
    console.log(`${(hits / digits).toFixed(3)} ${String(digits).padStart(6)}  ${texture}`);
  }
  print('works held out', blind!);
  print('works held out, every second digit given', hinted!);
}

function main(): void {
  if (!hasSamples()) {
    console.log('The shared scores are not here: nothing to fit.');
    return;
  }
  const samples = loadSamples();
  const pick = trainees(samples);
  if (process.argv.includes('--write')) write(samples, pick);
  else crossValidate(samples, pick);
}

main();
