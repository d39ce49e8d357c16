import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import type { Bias } from '#core/fingering/cost/objective.js';
import { fingerLine } from '#core/fingering/finger.js';
import { leastChoice } from '#core/fingering/search/forward.js';
import { viewLine } from '#core/fingering/view/view.js';
import type { Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { fingerings, Ledger, leastOfEverything, leastOfFingerings, objectiveOf } from './enumerate.js';
import { type Happening, happenings, lineOf, type Texture } from './lines.js';

const HANDS = fc.constantFrom<Hand>('right', 'left');
const SPANS = fc.constantFrom('small', 'medium', 'large');
/** Fingerings that one case may have: enough for seven single notes. */
const MOST_FINGERINGS = 5 ** 7;
/** Sums of a few hundred numbers taken in another order. */
/** Costs are told with six decimal places, and a line has some hundreds of terms. */
const ROUNDING = 1e-4;

const SINGLE: Texture = { keys: 1, holds: 0 };
const NARROW: Texture = { keys: 1, holds: 0, ambit: 9 };
const CHORDS: Texture = { keys: 3, holds: 0, ambit: 14 };
const VOICES: Texture = { keys: 2, holds: 3, ambit: 12 };

interface Case {
  readonly hand: Hand;
  readonly span: string;
  readonly events: readonly Happening[];
  readonly bias: readonly (readonly number[] | undefined)[];
  /** Slices that are never played right after the slice before them, as where a repeat leads on. */
  readonly cuts: readonly number[];
}

/** SliceExtraCost costs as `leastCost` takes them, cut to the candidates of each slice. */
const biases = fc.array(
  fc.option(fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 12 }), { nil: undefined }),
  { maxLength: 7, size: 'max' },
);

function cases(texture: Texture, least: number, most: number): fc.Arbitrary<Case> {
  return fc.record({
    hand: HANDS,
    span: SPANS,
    events: happenings(texture, least, most),
    bias: biases,
    cuts: fc.oneof(fc.constant([]), fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { maxLength: 2 })),
  });
}

interface Tally {
  cases: number;
  fingerings: number;
  held: number;
}

/** The search's answer beside the enumeration's, and beside the sum of its own path. */
function compare(
  { hand, span, events, bias, cuts }: Case,
  keepDigits: boolean,
  tally: Tally,
  deep = false,
): void {
  const model = handModel(span);
  const line = lineOf(hand, events);
  const views = viewLine(line, model, keepDigits, new Set(cuts));
  const count = fingerings(views);
  fc.pre(count <= MOST_FINGERINGS);
  const extra: Bias = views.map(({ candidates }, at) => {
    const own = bias[at];
    return own && candidates.map((_, nth) => own[nth % own.length]!);
  });
  const added = bias.length === 0 ? undefined : extra;
  const found = leastChoice(objectiveOf(views, model, added));
  const ledger = new Ledger(views, model, added);
  const oracle = deep ? leastOfEverything(ledger) : leastOfFingerings(ledger);
  expect(found.cost).toBe(oracle);
  const own = found.path.reduce((sum, candidate, at) => {
    const move = at > 0 ? ledger.move(at, found.depths[at - 1]!, found.depths[at]!) : 0;
    return sum + ledger.added(found.path, at) + ledger.discomfort(at, candidate)[found.depths[at]!]! + move;
  }, 0);
  expect(found.cost).toBe(own);
  tally.cases += 1;
  tally.fingerings += count;
  tally.held += line.slices.reduce((sum, slice) => sum + slice.held.length, 0);
}

describe('the search finds the least cost of all fingerings and depths', () => {
  it.each([
    { name: 'single notes anywhere, up to 7', texture: SINGLE, least: 1, most: 7, runs: 25 },
    { name: 'single notes in a narrow compass, up to 7', texture: NARROW, least: 3, most: 7, runs: 25 },
    {
      name: 'single notes, some digits given',
      texture: { ...NARROW, digits: true },
      least: 2,
      most: 7,
      runs: 20,
    },
    { name: 'chords of up to three keys', texture: CHORDS, least: 2, most: 5, runs: 20 },
    { name: 'two voices with held keys', texture: VOICES, least: 2, most: 6, runs: 25 },
    {
      name: 'two voices, some digits given',
      texture: { ...VOICES, digits: true },
      least: 2,
      most: 6,
      runs: 20,
    },
  ])('$name', ({ name, texture, least, most, runs }) => {
    const tally: Tally = { cases: 0, fingerings: 0, held: 0 };
    fc.assert(
      fc.property(cases(texture, least, most), (own) => compare(own, texture.digits === true, tally)),
      rounds(runs, 10 * runs),
    );
    console.log(
      `oracle, ${name}: ${tally.cases} lines, ${tally.fingerings} fingerings enumerated, ${tally.held} held keys`,
    );
    expect(tally.cases).toBeGreaterThanOrEqual(runs);
    if (texture.holds > 0) expect(tally.held).toBeGreaterThan(runs);
  });

  it('with every sequence of depths enumerated too', () => {
    const tally: Tally = { cases: 0, fingerings: 0, held: 0 };
    const short = fc.oneof(cases(SINGLE, 1, 3), cases(VOICES, 1, 3));
    fc.assert(
      fc.property(short, (own) => {
        fc.pre(fingerings(viewLine(lineOf(own.hand, own.events), handModel(own.span), false)) <= 250);
        compare(own, false, tally, true);
      }),
      rounds(15, 150),
    );
    console.log(
      `oracle, depths too: ${tally.cases} lines, ${tally.fingerings} fingerings of up to 343 paths`,
    );
  });
});

/** The same happenings without the digits that the file gives. */
function undigited(events: readonly Happening[]): readonly Happening[] {
  return events.map((event) => ({
    ...event,
    presses: event.presses.map(({ fixed: _, ...press }) => press),
  }));
}

describe('the terms of the report', () => {
  it.each([
    { name: 'lines of two voices', texture: VOICES, plain: 0 },
    { name: 'figures that recur, with digits given the first time', texture: NARROW, plain: 3 },
    { name: 'figures of two voices that recur', texture: VOICES, plain: 3 },
  ])('sum up to the cost: $name', ({ name, texture, plain }) => {
    let likeness = 0;
    fc.assert(
      fc.property(
        HANDS,
        happenings({ ...texture, digits: true }, 1, 12),
        fc.boolean(),
        (hand, events, keep) => {
          const again = Array.from({ length: plain }, () => undigited(events));
          const line = lineOf(hand, [...events, ...again.flat()]);
          const { fingering } = fingerLine(line, handModel(), { keepDigits: keep });
          const terms = fingering.slices.flatMap((slice) => Object.entries(slice.terms));
          const sum = terms.reduce((total, [, cost]) => total + cost, 0);
          likeness += terms.filter(([term]) => term === 'likeness').length;
          expect(Math.abs(sum - fingering.cost)).toBeLessThan(ROUNDING);
        },
      ),
      rounds(20, 250),
    );
    console.log(`terms, ${name}: likeness is paid in ${likeness} slices`);
    if (plain > 0) expect(likeness).toBeGreaterThan(0);
  });
});
