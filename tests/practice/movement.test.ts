import { beforeAll, expect, it } from 'vitest';
import { fingerLine, handModel } from '#core/index.js';
import { LEAST_OVERALL_BY_MOVEMENT, MOST_BREACHES_BY_MOVEMENT } from './passages/bounds.js';
import { perThousand } from './passages/counting/counts.js';
import { type Fingerer, judgeAll, type Verdict } from './passages/judge.js';
import { PRACTICE_RULES } from './passages/rules/rules-of-practice.js';
import { passagesOf, TEXTURES } from './passages/textures/all.js';

/** Mechanics alone, with no habit of editors: which rules of practice are left? */
const byMovement: Fingerer = (line, span, heed) =>
  fingerLine(line, handModel(span), { ...heed, by: 'movement' }).fingering;

const verdicts = new Map<string, readonly Verdict[]>();

beforeAll(() => {
  for (const texture of TEXTURES) verdicts.set(texture.name, judgeAll(passagesOf(texture), byMovement));
});

it.each(PRACTICE_RULES)('by movement: $name', ({ name, textures, count }) => {
  const own = textures?.flatMap((texture) => verdicts.get(texture)!) ?? [...verdicts.values()].flat();
  const counts = own.map(count);
  const occasions = counts.reduce((sum, one) => sum + one.occasions, 0);
  const breaches = counts.reduce((sum, one) => sum + one.breaches, 0);
  const rate = perThousand({ occasions, breaches });
  console.log(`by movement: ${name}: ${breaches} of ${occasions}, ${rate.toFixed(1)} per 1,000`);
  expect(occasions).toBeGreaterThan(20);
  expect(rate).toBeLessThanOrEqual(MOST_BREACHES_BY_MOVEMENT[name] ?? 0);
});

it('by movement: passages that pass', () => {
  const all = [...verdicts.values()].flat();
  const passed = all.filter(({ breaches }) => breaches.length === 0).length;
  const share = (100 * passed) / all.length;
  console.log(`by movement: ${share.toFixed(1)} % of ${all.length} passages`);
  expect(share).toBeGreaterThanOrEqual(LEAST_OVERALL_BY_MOVEMENT);
});
