import { beforeAll, expect, it } from 'vitest';
import {
  CHORDS_AIM,
  LEAST_CHORDS,
  LEAST_OVERALL,
  LEAST_PASSING,
  MOST_BREACHES,
  MOST_UNLIKE_RUNS,
  OVERALL_AIM,
  TEXTURE_AIM,
  UNLIKE_RUNS_AIM,
} from './passages/bounds.js';
import { surveyChords } from './passages/counting/chord-survey.js';
import { usual } from './passages/counting/count-scores.js';
import { perThousand } from './passages/counting/counts.js';
import { surveyRuns } from './passages/counting/run-survey.js';
import { judgeAll, type Verdict } from './passages/judge.js';
import { PRACTICE_RULES } from './passages/rules/rules-of-practice.js';
import { passagesOf, TEXTURES } from './passages/textures/all.js';

/** Passages in all keys, both hands, tempi 40 to 200, three spans, by texture. */
const verdicts = new Map<string, readonly Verdict[]>();
let all: readonly Verdict[] = [];

beforeAll(() => {
  for (const texture of TEXTURES) verdicts.set(texture.name, judgeAll(passagesOf(texture), usual));
  all = [...verdicts.values()].flat();
});

function passing(own: readonly Verdict[]): number {
  return (100 * own.filter(({ breaches }) => breaches.length === 0).length) / own.length;
}

it.each(TEXTURES.map(({ name }) => name))('%s: no fewer passages pass than stated', (name) => {
  const share = passing(verdicts.get(name)!);
  console.log(`${name}: ${share.toFixed(1)} % pass (aim ${TEXTURE_AIM})`);
  expect(share).toBeGreaterThanOrEqual(LEAST_PASSING[name]!);
});

it('all textures together', () => {
  console.log(`${passing(all).toFixed(1)} % of ${all.length} passages pass (aim ${OVERALL_AIM})`);
  expect(passing(all)).toBeGreaterThanOrEqual(LEAST_OVERALL);
});

it.each(PRACTICE_RULES)('$name', ({ name, textures, count }) => {
  const counts = (textures?.flatMap((texture) => verdicts.get(texture)!) ?? all).map(count);
  const occasions = counts.reduce((sum, own) => sum + own.occasions, 0);
  const breaches = counts.reduce((sum, own) => sum + own.breaches, 0);
  const rate = perThousand({ occasions, breaches });
  const { most, aim } = MOST_BREACHES[name]!;
  console.log(`${name}: ${breaches} of ${occasions}, ${rate.toFixed(1)} per 1,000 (aim ${aim})`);
  expect(occasions).toBeGreaterThan(20);
  expect(rate).toBeLessThanOrEqual(most);
});

it('R8 chords alone, in all keys: 1 and 5 outside and a finger for every key', () => {
  const survey = surveyChords(usual);
  for (const { name, hand, digits, usual: own } of survey)
    console.log(`${name}, ${hand} hand: ${digits.join(' ')}, ${own} of 12`);
  const share = (100 * survey.reduce((sum, own) => sum + own.usual, 0)) / (12 * survey.length);
  console.log(`${share.toFixed(1)} % (aim ${CHORDS_AIM})`);
  expect(share).toBeGreaterThanOrEqual(LEAST_CHORDS);
});

it('R6 a run of three octaves has the digits of one of two', () => {
  const survey = surveyRuns(usual);
  for (const { name, occasions, breaches, unlike } of survey)
    console.log(`${name}: ${breaches} of ${occasions} unlike ${unlike.join('; ')}`);
  const breaches = survey.reduce((sum, own) => sum + own.breaches, 0);
  console.log(`${breaches} of ${24 * survey.length} runs unlike (aim ${UNLIKE_RUNS_AIM})`);
  expect(breaches).toBeLessThanOrEqual(MOST_UNLIKE_RUNS);
});
