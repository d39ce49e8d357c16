import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { DENSITIES } from '#core/options/options.js';
import works from '../fitting/works.json' with { type: 'json' };
import { readFigures } from './figures.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const DOCS = 'packages/core/docs';
const guides = readdirSync(`${ROOT}${DOCS}`).filter((name) => name.endsWith('.md'));
const paths = ['README.md', 'DEVELOPERS.md', ...guides.map((name) => `${DOCS}/${name}`)];
/** All guides as one text, however their lines are broken. */
const told = paths.map((path) => readFileSync(`${ROOT}${path}`, 'utf8').replaceAll(/\s+/g, ' ')).join(' ');

const { annotate, cues, fit, fragments, explained, unusual, drill, review, reviewTime } = readFigures();
const share = ({ percent, saved }: { readonly percent: number; readonly saved: number }) =>
  `${percent} %, ${saved} mm`;
const digits = works.reduce((sum, work) => sum + work.digits, 0);

it.each([
  `${annotate.ratioLeast.toFixed(1)} to ${annotate.ratioMost.toFixed(1)} times as long`,
  `${annotate.growthLeast.toFixed(1)} to ${annotate.growthMost.toFixed(1)} times the smallest score's time a note`,
  ...Object.entries(fit).map(
    ([judged, { macro, micro }]) => `| ${judged} | ${macro.toFixed(3)} | ${micro.toFixed(3)} |`,
  ),
  ...DENSITIES.map((density) => {
    const { beat, measure, early } = cues[density];
    return `| \`${density}\` | ${beat.toFixed(2)} | ${measure.toFixed(2)} | ${Math.round(100 * early)} % |`;
  }),
  `${Math.round(100 * cues.crossings)} % of the crossings`,
  `the ${cues.scores} shared scores`,
  ...Object.entries(fragments).map(([name, { byLength, ...all }]) => {
    const cells = [...byLength, all].map(share);
    return `| ${name.replace('harmonic-minor', 'harmonic minor')} | ${cells.join(' | ')} |`;
  }),
  ...explained,
  `${review.passages.toLocaleString('en')} passages with digits, ${review.measures.toLocaleString('en')} measures of a hand`,
  ...Object.entries({ ...review.levels, ...review.causes }).map(
    ([name, count]) => `| ${name} | ${count.toFixed(1)} |`,
  ),
  `a review of ${reviewTime.digits.toLocaleString('en')} digits takes ${reviewTime.ratio} times the CPU time`,
  `${Object.values(review.extra)
    .map((mm) => mm.toFixed(1))
    .join(', ')} mm a note`,
  `in ${unusual.crossing} % of the fragments`,
  `in ${unusual.sliding} % a finger`,
  `${drill.notes.toLocaleString('en')} notes of all 24 keys`,
  `take ${drill.ratio} times as long`,
  `${works.length} scores`,
  `${(Math.round(digits / 100) * 100).toLocaleString('en')} digits`,
])('the guides say "%s", as measured', (quote) => {
  expect(told.includes(quote)).toBe(true);
});
