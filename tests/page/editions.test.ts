import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { DENSITIES } from '#core/options/options.js';
import { LONG } from '../rounds.js';
import { editions } from '../scores.js';
import { drawnPages } from './drawn.js';
import { faultsOf } from './faults.js';

const PAGES = 2;

it.each(LONG ? DENSITIES : (['essential'] as const))(
  'on the first two pages of editions no cue lies on anything: %s',
  (density) => {
    const found = { onOurs: 0, onDigits: 0, onSigns: 0, struck: 0, digits: 0, atEnds: 0 };
    let texts = 0;
    for (const path of editions(1, 0.1)) {
      const pages = drawnPages(annotate(readFileSync(path, 'utf8'), { density }).output, PAGES);
      texts += pages.flatMap(({ boxes }) => boxes.filter(({ ours }) => ours)).length;
      const faults = faultsOf(pages);
      for (const name of Object.keys(found) as (keyof typeof found)[]) found[name] += faults[name].length;
      if (faults.onOurs.length > 0) console.log(path, faults.onOurs.join('; '));
    }
    console.log(`${density}: ${texts} texts of ours; ${JSON.stringify(found)}`);
    expect(texts).toBeGreaterThan(10);
    // Digits among themselves are verovio's to place.
    const { digits, ...others } = found;
    expect(others).toEqual({ onOurs: 0, onDigits: 0, onSigns: 0, struck: 0, atEnds: 0 });
  },
);
