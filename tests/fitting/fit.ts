import { sizeOf } from '#core/fingering/cost/terms/blocks.js';
import { isHabit } from '#core/fingering/cost/terms/term.js';
import { OFFSETS, TERMS } from '#core/fingering/cost/terms/terms.js';
import type { Criterion } from '#core/options/options.js';
import { record } from '../docs/figures.js';
import { hasSamples, loadSamples, type Sample } from './data.js';
import { summary, type Tally, tally } from './evaluate.js';
import { featuresOf } from './features.js';
import { supportOf } from './support.js';
import { type Regime, SCALE, SEED, type Trainee, train } from './train.js';
import { type HeldOut, writeTables } from './write-tables.js';

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

/** Digits at which a habit has half its fitted pull: what few digits taught fades, and mechanics decide. */
const HALF_PULL = 5;

/** The weights of habits by how many digits they rest on. */
function faded(weights: Float64Array, support: Uint32Array): Float64Array {
  const result = weights.slice();
  TERMS.forEach((term, nth) => {
    if (!isHabit(term)) return;
    for (let at = OFFSETS[nth]!; at < OFFSETS[nth]! + sizeOf(term.blocks); at++)
      result[at]! *= support[at]! / (support[at]! + HALF_PULL);
  });
  return result;
}

/** All pairs of parts. */
const PAIRS = PARTS.flatMap((_, one) => PARTS.slice(one + 1).map((__, nth) => [one, one + 1 + nth] as const));

/** What a single fit knows by heart of its works, the mean of many that each miss other works does not. */
function mean(fits: readonly Float64Array[]): Float64Array {
  return fits[0]!.map((_, at) => fits.reduce((sum, fit) => sum + fit[at]!, 0) / fits.length);
}

/** Fits for one measure. */
class Fitting {
  readonly #pick: Pick;
  readonly #known = new Map<string, Float64Array>();

  constructor(
    private readonly samples: readonly Sample[],
    private readonly measure: Criterion,
  ) {
    this.#pick = trainees(samples);
  }

  /** Weights that never saw the works of these parts. */
  without(parts: readonly number[]): Float64Array {
    const id = [...parts].sort().join();
    const unseen = parts.flatMap((part) => PARTS[part]!);
    const known =
      this.#known.get(id) ??
      train(
        this.#pick((work) => !unseen.includes(work)),
        REGIME,
        this.measure,
      );
    this.#known.set(id, known);
    return known;
  }

  /** Every part judged by the mean of fits that leave it and two others out. */
  crossValidate(): HeldOut {
    const halves = loadSamples(2);
    const [blind, hinted, textures] = [new Map(), new Map(), new Map()] as [Tally, Tally, Tally];
    PARTS.forEach((works, part) => {
      const others = PAIRS.filter((pair) => !pair.includes(part));
      const unseen = ({ work }: Sample): boolean => works.includes(work);
      const support = supportOf(this.samples.filter((sample) => !unseen(sample)));
      const weights = faded(mean(others.map((pair) => this.without([part, ...pair]))), support);
      tally(this.samples.filter(unseen), weights, this.measure, blind, textures);
      tally(halves.filter(unseen), weights, this.measure, hinted);
    });
    list(blind);
    list(textures);
    return { blind: summary(blind), hinted: summary(hinted) };
  }

  /** Weights from all works: the mean of fits that each leave two parts out. */
  write(heldOut: HeldOut): void {
    const support = supportOf(this.samples);
    const weights = faded(mean(PAIRS.map((pair) => this.without(pair))), support);
    writeTables(this.measure, weights, support, heldOut, SEED);
    print(
      `${this.measure}: on the works fitted`,
      summary(tally(this.samples, weights, this.measure, new Map())),
    );
  }
}

function list(found: Tally): void {
  for (const [name, [hits, digits]] of [...found].sort()) {
    console.log(`${(hits / digits).toFixed(3)} ${String(digits).padStart(6)}  ${name}`);
  }
}

function print(name: string, { macro, micro }: HeldOut['blind']): void {
  console.log(`${name}: macro ${macro.toFixed(4)}, micro ${micro.toFixed(4)}`);
  const rounded = { macro: Number(macro.toFixed(3)), micro: Number(micro.toFixed(3)) };
  record((figures) => ({ ...figures, fit: { ...figures.fit, [name]: rounded } }));
}

/** `fit.ts [movement] [--write]`: cross-validates one measure, usage by default, and writes its tables if asked. */
function main(): void {
  if (!hasSamples()) {
    console.log('The shared scores are not here: nothing to fit.');
    return;
  }
  const measure: Criterion = process.argv.includes('movement') ? 'movement' : 'usage';
  const fitting = new Fitting(loadSamples(), measure);
  const heldOut = fitting.crossValidate();
  print(`${measure}: works held out`, heldOut.blind);
  print(`${measure}: works held out, every second digit given`, heldOut.hinted);
  if (process.argv.includes('--write')) fitting.write(heldOut);
}

main();
