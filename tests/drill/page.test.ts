import { describe, expect, it } from 'vitest';
import { drill } from '#core/drill/drill.js';
import type { DrillOptions } from '#core/drill/options.js';
import { drawnPages } from '../page/drawn.js';
import { type Box, overlap } from '../page/shapes.js';

const SHEETS: Readonly<Record<string, DrillOptions>> = {
  'scales in four octaves': { keys: ['C', 'Bb', 'F#'], octaves: 4 },
  'contrary motion': { keys: ['G'], kinds: ['melodic-minor'], motion: 'contrary', octaves: 3 },
  fragments: { keys: ['Ab'], kinds: ['harmonic-minor'], fragments: { from: 6, to: 6, starts: [0, 2] } },
  'awkward fragments': { keys: ['D', 'E'], awkward: 6, fragments: { from: 6, to: 7 } },
  'low, in triplets': {
    keys: ['C', 'Db'],
    start: 2,
    patterns: ['scales', 'arpeggios'],
    rhythms: [['triplet-eighth']],
    metre: '3/4',
  },
  'fragments by every, in German': {
    keys: ['D'],
    fragments: { from: 5, to: 5, starts: [0, 3] },
    language: 'de',
    density: 'every',
  },
  'a book': { keys: ['Eb'], patterns: ['arpeggios', 'cadences', 'five-finger'], language: 'de' },
};

/** In verovio's units, the upper margin left out. */
const PAGE_HEIGHT = 29_700 - 500;

describe.each(Object.entries(SHEETS))('%s on the page, drawn by verovio', (_, options) => {
  it('have no digit on a digit, no cue on a digit and no text on another', () => {
    const pages = drawnPages(drill(options).output, undefined, 'encoded');
    const hits = { digits: [] as string[], texts: [] as string[] };
    let count = 0;
    for (const { boxes } of pages) {
      const own = boxes.filter(({ kind }) => kind === 'fing' || kind === 'dir');
      count += own.length;
      own.forEach((one, at) => {
        for (const other of own.slice(at + 1)) {
          if (!overlap(one, other) || isSameText(one, other)) continue;
          const digits = [one, other].filter(({ kind }) => kind === 'fing').length;
          (digits > 0 ? hits.digits : hits.texts).push(`${one.text} on ${other.text}`);
        }
      });
    }
    console.log(
      `${pages.length} pages, ${count} texts; on digits: ${hits.digits.join('; ') || 'none'}; texts: ${hits.texts.join('; ') || 'none'}`,
    );
    expect(count).toBeGreaterThan(60);
    // What would lie lower is cut off.
    for (const { boxes } of pages) for (const { bottom } of boxes) expect(bottom).toBeLessThan(PAGE_HEIGHT);
    expect(hits.digits).toEqual([]);
    expect(hits.texts).toEqual([]);
  });
});

/** Two lines of one text have boxes of their own. */
function isSameText(one: Box, other: Box): boolean {
  return one.kind === 'dir' && one.left === other.left && one.top === other.top;
}
