import { describe, expect, it } from 'vitest';
import { LONG, SEED } from '../rounds.js';
import { mutant, outcomeOf } from './mutate.js';

const COUNT = LONG ? 5000 : 80;
const FIRST_SEED = 7_000_000 + COUNT * (SEED - 1);

describe('mutants of the fixtures', () => {
  it('are marked or refused by a typed error in one line', () => {
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
    expect(outcomes.size).toBeGreaterThan(3);
  });
});
