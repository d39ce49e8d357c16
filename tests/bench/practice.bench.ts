import { bench, describe } from 'vitest';
import { scoresToCount, tellCounts, usual } from '../practice/passages/counting/count-scores.js';
import { judgeAll } from '../practice/passages/judge.js';
import { passagesOf, TEXTURES } from '../practice/passages/textures/all.js';

/** How often our digits break rules of practice in real scores, and what passes of the generated passages. */
function printPractice(): void {
  console.log(tellCounts(scoresToCount()));
  for (const texture of TEXTURES) {
    const verdicts = judgeAll(passagesOf(texture), usual);
    const passed = verdicts.filter(({ breaches }) => breaches.length === 0).length;
    console.log(
      `${texture.name}: ${((100 * passed) / verdicts.length).toFixed(0)} % of ${verdicts.length} pass`,
    );
  }
}

printPractice();

const passages = TEXTURES.flatMap((texture) => passagesOf(texture).slice(0, 4));
describe(`${passages.length} passages of ${TEXTURES.length} textures`, () => {
  bench('fingered and judged', () => void judgeAll(passages, usual), { time: 3000 });
});
