import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { DENSITIES, LAYERS } from '#core/options/options.js';
import { LONG } from '../rounds.js';
import { editions } from '../scores.js';
import { drawnPages } from './drawn.js';
import { faultsOf } from './faults.js';
import { loneDashes, neighbours } from './rows.js';

const PAGES = 2;
/** Of so many texts of all layers at `every` one may lie on another. */
const PILED = 1000;
/** In French at `every`, of so many one may lie on another or come near: 11 of 7,421 did, 23 with words of seven letters. */
const BESIDE_OTHERS = 500;

/** Share of neighbours that are level at least, where there are so many that the share says something (docs/cues.md). */
const LEVEL = { every: 0.53, essential: 0.67, demanding: 0.78 } as const;
const MANY = 100;

/** All layers by `every`: not every pair of texts is parted, but few lie on each other. */
it('all layers at once leave a page that can be read', () => {
  let [texts, onOurs] = [0, 0];
  for (const path of editions(1, 0.1)) {
    const { output } = annotate(readFileSync(path, 'utf8'), { density: 'every', layers: LAYERS });
    const pages = drawnPages(output, PAGES);
    texts += pages.flatMap(({ boxes }) => boxes.filter(({ ours }) => ours)).length;
    onOurs += faultsOf(pages).onOurs.length;
  }
  console.log(`all layers: ${texts} texts of ours, ${onOurs} pairs on each other`);
  expect(texts).toBeGreaterThan(20);
  expect(onOurs).toBeLessThanOrEqual(Math.ceil(texts / PILED));
});

it.each(LONG ? DENSITIES : (['essential'] as const))(
  'on the first two pages of editions no cue lies on anything: %s',
  (density) => {
    const found = { onOurs: 0, near: 0, onDigits: 0, onSigns: 0, struck: 0, digits: 0, atEnds: 0 };
    let [texts, all, level, lone] = [0, 0, 0, 0];
    for (const path of editions(1, 0.1)) {
      const pages = drawnPages(annotate(readFileSync(path, 'utf8'), { density }).output, PAGES);
      texts += pages.flatMap(({ boxes }) => boxes.filter(({ ours }) => ours)).length;
      const faults = faultsOf(pages);
      for (const name of Object.keys(found) as (keyof typeof found)[]) found[name] += faults[name].length;
      for (const { boxes } of pages) {
        const beside = neighbours(boxes);
        all += beside.all;
        level += beside.level;
        lone += loneDashes(boxes);
      }
      if (faults.onOurs.length > 0) console.log(path, faults.onOurs.join('; '));
    }
    console.log(
      `${density}: ${texts} texts of ours; ${JSON.stringify(found)}; ${level} of ${all} neighbours level`,
    );
    expect(texts).toBeGreaterThan(10);
    // Digits among themselves are verovio's to place.
    const { digits, ...others } = found;
    expect(lone).toBe(0);
    if (all > MANY) expect(level / all).toBeGreaterThanOrEqual(LEVEL[density]);
    // Where texts pile up at `every`, verovio sets one or two close to others (docs/cues.md).
    const { near, ...clean } = others;
    expect(near).toBeLessThanOrEqual(density === 'every' ? 2 : 0);
    expect(clean).toEqual({ onOurs: 0, onDigits: 0, onSigns: 0, struck: 0, atEnds: 0 });
  },
);

/** French has the longest words; by `every` verovio presses a system now and then, as with all layers. */
it.each(LONG ? DENSITIES : (['every', 'essential'] as const))('nor does any in French: %s', (density) => {
  const found: string[] = [];
  let [texts, crowded] = [0, 0];
  for (const path of editions(1, 0.1)) {
    const { output } = annotate(readFileSync(path, 'utf8'), { density, language: 'fr' });
    const pages = drawnPages(output, PAGES);
    texts += pages.flatMap(({ boxes }) => boxes.filter(({ ours }) => ours)).length;
    const { onOurs, near, onDigits, onSigns, struck } = faultsOf(pages);
    const among = [...onOurs, ...near];
    crowded += among.length;
    const faults = [...(density === 'every' ? [] : among), ...onDigits, ...onSigns, ...struck];
    found.push(...faults.map((fault) => `${path}: ${fault}`));
  }
  console.log(`French, ${density}: ${texts} texts of ours, ${crowded} pairs on each other or near`);
  expect(texts).toBeGreaterThan(10);
  expect(crowded).toBeLessThanOrEqual(Math.ceil(texts / BESIDE_OTHERS));
  expect(found).toEqual([]);
});
