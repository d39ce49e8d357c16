import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { prepare } from '#core/fingering/finger.js';
import { costOf } from '#core/fingering/repeats/settle.js';
import { leastCostsThrough } from '#core/fingering/search/backward.js';
import { Search } from '#core/fingering/search/forward.js';
import { happenings, lineOf } from './lines.js';

/** The search keeps the costs of 16,384 slices in memory: two whole blocks and a part of a third. */
const SLICES = 33_000;

/** Some music, over and over, each time a little elsewhere. */
function longObjective() {
  const pieces = fc.sample(happenings({ keys: 2, holds: 1, ambit: 16 }, 40, 60), { numRuns: 20, seed: 17 });
  const events = Array.from({ length: SLICES }, (_, at) => {
    const piece = pieces[Math.floor(at / 50) % pieces.length]!;
    return piece[at % piece.length]!;
  });
  return prepare(lineOf('right', events), handModel('medium'), {}).objective;
}

describe('a line that the search takes in blocks', () => {
  const objective = longObjective();
  const search = new Search();
  const choice = search.find(objective);
  const through = leastCostsThrough(objective, search, Number.POSITIVE_INFINITY);

  it('has a fingering that costs what it is said to cost', () => {
    expect(objective.views).toHaveLength(SLICES);
    expect(costOf(objective, choice.path, choice.depths)).toBe(choice.cost);
  });

  it('has no cheaper one: at every slice the cheapest candidate costs the same, at the first by what follows alone', () => {
    expect(new Set(through.map((costs) => Math.min(...costs)))).toEqual(new Set([choice.cost]));
    expect(choice.path.map((candidate, at) => through[at]![candidate])).toEqual(
      through.map(() => choice.cost),
    );
  });

  it('has the same one when the search is used again, after a shorter line too', () => {
    search.find(objective.section(4000, 4300));
    expect(search.find(objective)).toEqual(choice);
  });
});
