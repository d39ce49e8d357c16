import { describe, expect, it } from 'vitest';
import { mutant, outcomeOf } from './mutate.js';
import { PATIENT } from './runs.js';

const COUNT = 300;
const FIRST_SEED = 7_000_000;

describe('mutants of the fixtures', () => {
  it('are marked or refused by a typed error in one line', PATIENT, () => {
    const outcomes = new Map<string, number>();
    for (let seed = FIRST_SEED; seed < FIRST_SEED + COUNT; seed++) {
      let outcome: string;
      try {
        outcome = outcomeOf(mutant(seed));
      } catch (cause) {
        throw new Error(`the mutant of seed ${seed} is neither marked nor refused`, { cause });
      }
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
    }
    console.log(`mutants: ${[...outcomes].map(([code, count]) => `${count} ${code}`).join(', ')}`);
    expect(outcomes.get('marked')).toBeGreaterThan(COUNT / 10);
    expect(outcomes.size).toBeGreaterThan(4);
  });
});
