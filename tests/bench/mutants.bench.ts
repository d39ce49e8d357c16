import { bench, describe } from 'vitest';
import { mutant, outcomeOf } from '../properties/mutate.js';

const COUNT = 5000;
const MOST_MS = 2000;
const MOST_MEGABYTES = 512;
const MB = 2 ** 20;

/** What the process holds; sampled around every mutant. The peak in between is that of the whole process. */
const held = () => {
  const { heapUsed, external, arrayBuffers } = process.memoryUsage();
  return (heapUsed + external + arrayBuffers) / MB;
};

describe('mutants', () => {
  bench(
    `${COUNT} mutants of the fixtures are marked or refused within ${MOST_MS} ms and ${MOST_MEGABYTES} MB`,
    () => {
      const outcomes = new Map<string, number>();
      const slow = { ms: 0, seed: -1 };
      let peak = 0;
      const settled = process.resourceUsage().maxRSS;
      for (let seed = 0; seed < COUNT; seed++) {
        const bytes = mutant(seed);
        const before = held();
        const start = performance.now();
        const outcome = outcomeOf(bytes);
        const ms = performance.now() - start;
        peak = Math.max(peak, held() - before);
        if (ms > slow.ms) Object.assign(slow, { ms, seed });
        outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
      }
      const whole = (process.resourceUsage().maxRSS - settled) / 1024;
      const counts = [...outcomes].sort((a, b) => b[1] - a[1]).map(([code, count]) => `${count} ${code}`);
      console.log(
        `${COUNT} mutants: ${counts.join(', ')}; slowest ${Math.round(slow.ms)} ms (seed ${slow.seed}), ` +
          `largest growth by one ${Math.round(peak)} MB, of the whole process at its peak ${Math.round(whole)} MB`,
      );
      if (slow.ms > MOST_MS || whole > MOST_MEGABYTES)
        throw new Error('a mutant takes too much time or memory');
    },
    { iterations: 1, warmupIterations: 0, time: 0, warmupTime: 0 },
  );
});
