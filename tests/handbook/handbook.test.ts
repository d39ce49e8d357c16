import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { alternatives } from '#core/fingering/alternatives.js';
import { fingerLine } from '#core/fingering/finger.js';
import type { LineFingering } from '#core/fingering/result.js';
import type { Line } from '#core/hands/line.js';
import { isBlack } from '#core/keyboard/key-plan.js';
import { planMotion } from '#core/motion/motion.js';
import type { Finger, Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';
import { Ranking } from './rank.js';
import { type Kind, type Passage, passages } from './tables.js';

const HANDS: readonly Hand[] = ['right', 'left'];
const SCALES: readonly Kind[] = ['major scale', 'harmonic minor scale'];
const ARPEGGIOS: readonly Kind[] = ['major arpeggio', 'minor arpeggio'];
/** Eighth notes at 120 a minute. */
const SECONDS = 0.25;
const model = handModel();
/** The issue asks whether the handbook is among this many; ranks are counted a little further. */
const BEST = 10;
const FURTHEST = 200;
/** mm equivalents by which ours must be cheaper to count as the easier one. */
const CHEAPER = 3;

interface Difference {
  readonly name: string;
  readonly more: number;
}

interface Result {
  readonly passage: Passage;
  readonly ours: string;
  /** The handbook's form that is nearest to ours. */
  readonly nearest: string;
  readonly equal: number;
  readonly cost: number;
  readonly handbookCost: number;
  /** 1 where no fingering costs less than the handbook's. */
  readonly rank: number;
  /** Whether the handbook's is among the alternatives that the library itself gives. */
  readonly among: boolean;
  /** Whether any fingering at all costs less than ours. */
  readonly beaten: boolean;
  /** Terms by which the cheapest of the handbook's forms costs more than ours or less, dearest for it first. */
  readonly difference: readonly Difference[];
  readonly travel: number;
}

function lineOf({ hand, keys, diatonic }: Passage, digits?: string): Line {
  const { line } = melody(hand, keys, '1'.repeat(keys.length), SECONDS);
  const slices = line.slices.map((slice, at) => ({
    ...slice,
    struck: slice.struck.map((key) => ({
      ...key,
      diatonic: diatonic[at]!,
      ...(digits && { fixed: Number(digits[at]) as Finger }),
    })),
  }));
  return { ...line, slices };
}

const digitsOf = ({ slices }: LineFingering): string => slices.map(({ struck }) => struck[0]).join('');
const equalDigits = (a: string, b: string): number => [...a].filter((digit, at) => digit === b[at]).length;

function judge(passage: Passage): Result {
  const line = lineOf(passage);
  const { fingering } = fingerLine(line, model, { keepDigits: false });
  const ours = digitsOf(fingering);
  const ranking = new Ranking(line, model);
  const cheapest = passage.forms.reduce((a, b) => (ranking.cost(b) < ranking.cost(a) ? b : a));
  const nearest = passage.forms.reduce((a, b) => (equalDigits(b, ours) > equalDigits(a, ours) ? b : a));
  const handbookCost = ranking.cost(cheapest);
  const best = alternatives(line, model, { keepDigits: false, count: BEST }).map(digitsOf);
  return {
    passage,
    ours,
    nearest,
    equal: equalDigits(nearest, ours),
    cost: ranking.cost(ours),
    handbookCost,
    rank: 1 + ranking.cheaper(handbookCost, FURTHEST),
    among: best.some((digits) => passage.forms.includes(digits)),
    beaten: ranking.cheaper(ranking.cost(ours), 1) > 0,
    difference: difference(passage, ranking, ours, cheapest),
    travel: planMotion(line, fingering, model).depthTravel,
  };
}

function difference(
  passage: Passage,
  ranking: Ranking,
  ours: string,
  cheapest: string,
): readonly Difference[] {
  const sums = (digits: string): Map<string, number> => {
    const { fingering } = fingerLine(lineOf(passage, digits), model, { keepDigits: true });
    const totals = new Map<string, number>();
    for (const { terms } of fingering.slices) {
      for (const [name, cost] of Object.entries(terms)) totals.set(name, (totals.get(name) ?? 0) + cost);
    }
    // Digits that the file gives are dearer to differ from than chosen ones.
    return totals.set('likeness', ranking.inconsistency(digits));
  };
  const [own, theirs] = [sums(ours), sums(cheapest)];
  return [...new Set([...own.keys(), ...theirs.keys()])]
    .map((name) => ({ name, more: (theirs.get(name) ?? 0) - (own.get(name) ?? 0) }))
    .sort((a, b) => b.more - a.more);
}

function differenceText(terms: readonly Difference[]): string {
  return terms
    .filter(({ more }) => Math.abs(more) >= 0.05)
    .map(({ name, more }) => `${name} ${more > 0 ? '+' : ''}${more.toFixed(1)}`)
    .join(', ');
}

function print(result: Result): void {
  const { passage, ours, nearest, equal, cost, handbookCost, rank } = result;
  const rankText = rank > FURTHEST ? `> ${FURTHEST}` : String(rank);
  const lines = [
    `${passage.name}: ${equal}/${ours.length} equal, ours ${cost.toFixed(1)}, handbook ${handbookCost.toFixed(1)}, rank ${rankText}`,
  ];
  if (equal < ours.length) {
    lines.push(
      `  ours     ${ours}`,
      `  handbook ${nearest}`,
      `  the cheapest handbook form's terms against ours: ${differenceText(result.difference)}`,
    );
  }
  console.log(lines.join('\n'));
}

interface Summary {
  readonly share: number;
  readonly among: number;
}

/** Prints every key and sums up. */
function summary(title: string, results: readonly Result[]): Summary {
  results.forEach(print);
  const notes = results.reduce((sum, { ours }) => sum + ours.length, 0);
  const share = results.reduce((sum, { equal }) => sum + equal, 0) / notes;
  const alike = results.filter(({ equal, ours }) => equal >= 0.9 * ours.length).length;
  const among = results.filter((own) => own.among).length;
  const cheaper = results.filter(({ cost, handbookCost }) => cost < handbookCost - CHEAPER).length;
  const either = results.filter(
    ({ equal, ours, cost, handbookCost }) => equal >= 0.9 * ours.length || cost < handbookCost - CHEAPER,
  ).length;
  const same = results.filter(({ equal, ours }) => equal === ours.length).length;
  console.log(
    `${title}: ${(100 * share).toFixed(1)} % of ${notes} notes equal; ${same} of ${results.length} all equal, ` +
      `${alike} at least 90 %, ${cheaper} cheaper by more than ${CHEAPER} mm, ${either} either; handbook among the ${BEST} best in ${among}`,
  );
  return { share, among };
}

const results = Object.fromEntries(
  HANDS.map((hand) => [
    hand,
    { scales: passages(SCALES, hand).map(judge), arpeggios: passages(ARPEGGIOS, hand).map(judge) },
  ]),
) as Record<Hand, { scales: Result[]; arpeggios: Result[] }>;

/**
 * Share of equal notes and passages with the handbook among the 10 best, likeness included: as measured, less two points
 * of a share and one passage, so that fitting the weights anew may move single notes. For scales the second number is the
 * target of issue 3 itself. Raise these numbers with the cost.
 */
const LEVELS: Readonly<Record<Hand, Readonly<Record<'scales' | 'arpeggios', readonly [number, number]>>>> = {
  right: { scales: [0.88, 22], arpeggios: [0.95, 23] },
  left: { scales: [0.93, 22], arpeggios: [0.89, 23] },
};

/** mm equivalents by which the handbook's may be dearer than ours: as measured and a few more. Lower these numbers with the cost. */
const MOST_DEARER: Readonly<Record<Hand, Readonly<Record<'scales' | 'arpeggios', number>>>> = {
  right: { scales: 22, arpeggios: 12 },
  left: { scales: 22, arpeggios: 66 },
};

describe.each(HANDS)('%s hand', (hand) => {
  it.each(['scales', 'arpeggios'] as const)(
    '%s are as near to the handbook’s as measured, which costs hardly more; nothing costs less than ours',
    (what) => {
      const { share, among } = summary(`${what}, ${hand} hand`, results[hand][what]);
      const [leastShare, leastAmong] = LEVELS[hand][what];
      expect(share).toBeGreaterThanOrEqual(leastShare);
      expect(among).toBeGreaterThanOrEqual(leastAmong);
      for (const { passage, cost, handbookCost, beaten } of results[hand][what]) {
        expect(beaten, passage.name).toBe(false);
        expect(handbookCost - cost, passage.name).toBeLessThanOrEqual(MOST_DEARER[hand][what]);
      }
      // The terms that are printed explain the whole amount.
      for (const result of results[hand][what]) {
        const explained = result.difference.reduce((sum, { more }) => sum + more, 0);
        // Terms are told with six decimal places each.
        expect(explained, result.passage.name).toBeCloseTo(result.handbookCost - result.cost, 4);
      }
      // The library's alternatives and a ranking that follows every fingering to its end must agree.
      for (const own of results[hand][what]) expect(own.rank <= BEST, own.passage.name).toBe(own.among);
    },
  );

  it('no thumb on black in scales where the handbook has none', () => {
    const thumbs = results[hand].scales.flatMap(({ passage: { name, keys }, ours, nearest }) =>
      keys.flatMap((key, at) =>
        isBlack(key) && ours[at] === '1' && nearest[at] !== '1' ? [`${name}, note ${at + 1}`] : [],
      ),
    );
    expect(thumbs).toEqual([]);
  });

  /** Chopin's order of teaching: tests/practice/scales.test.ts names its source. */
  it('with our own fingers, a scale of five black keys travels least in depth and C is among the four that travel most', () => {
    const majors = results[hand].scales
      .filter(({ passage }) => passage.kind === 'major scale')
      .sort((a, b) => a.travel - b.travel);
    const order = majors.map(({ passage }) => passage.tonic);
    console.log(
      `depth travel, ${hand} hand, mm: ${majors.map((own) => `${own.passage.tonic} ${own.travel}`).join(' < ')}`,
    );
    const least = majors.filter(({ travel }) => travel === majors[0]!.travel);
    expect(least.map(({ passage }) => passage.tonic)).toContain(hand === 'right' ? 'B' : 'D flat');
    expect(order.slice(-4)).toContain('C');
  });
});
