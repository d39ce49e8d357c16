import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { annotate } from '@handline/core';
import { XMLParser } from 'fast-xml-parser';
import { bench, describe } from 'vitest';
import { PARSER_OPTIONS } from '#core/musicxml/xml/parse.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { record } from '../docs/figures.js';

const DEMO = fileURLToPath(new URL('../../fixtures/demo/kelp-street-tunes.musicxml', import.meta.url));
const LETTERS = 'CDEFGAB';

/** The pitch moved by letters, alterations kept, so that no two copies lie on the same keys. */
function moved(text: string, letters: number): string {
  return text.replaceAll(
    /<step>([A-G])<\/step>(\s*(?:<alter>[^<]*<\/alter>\s*)?)<octave>(\d)<\/octave>/g,
    (_, step: string, middle: string, octave: string) => {
      const place = Number(octave) * 7 + LETTERS.indexOf(step) + letters;
      return `<step>${LETTERS[place % 7]}</step>${middle}<octave>${Math.floor(place / 7)}</octave>`;
    },
  );
}

/** The demo's pieces one after the other, again and again, each time on other keys. */
function score(notes: number): { text: string; notes: number } {
  const demo = readFileSync(DEMO, 'utf8');
  const start = demo.indexOf('<measure');
  const end = demo.lastIndexOf('</measure>') + '</measure>'.length;
  const body = demo.slice(start, end);
  const each = body.split('<note').length - 1;
  let measure = 0;
  const copies = Array.from({ length: Math.ceil(notes / each) }, (_, nth) =>
    moved(body, ((nth * 3) % 8) - 3).replaceAll(
      /<measure number="[^"]*"/g,
      () => `<measure number="${++measure}"`,
    ),
  );
  return {
    text: demo.slice(0, start) + copies.join('\n    ') + demo.slice(end),
    notes: each * copies.length,
  };
}

const options = { ...PARSER_OPTIONS, maxNestedTags: DEFAULT_LIMITS.maxDepth + 1 };
const parse = (text: string): void => void new XMLParser(options).parse(text);
const limits = { maxBytes: 5e8, maxNotes: 1e6 };
const mark = (text: string): void => void annotate(text, { limits });

/** Median milliseconds of several tasks, run in turn, so that a busy machine slows them all alike. */
function medians(tasks: readonly (() => void)[], rounds: number): number[] {
  const all = tasks.map((): number[] => []);
  for (let round = 0; round < rounds; round++) {
    tasks.forEach((task, nth) => {
      const start = performance.now();
      task();
      all[nth]!.push(performance.now() - start);
    });
  }
  return all.map((own) => own.sort((x, y) => x - y)[Math.floor(rounds / 2)]!);
}

/** The target: annotating takes no more than 2.5 times as long as parsing, and grows with the notes. */
function printRatios(): void {
  const sizes = [1000, 3000, 5000, 10_000, 30_000, 100_000];
  const warm = score(2000).text;
  for (let nth = 0; nth < 10; nth++) {
    parse(warm);
    mark(warm);
  }
  let first: number | undefined;
  const [ratios, growths]: number[][] = [[], []];
  for (const size of sizes) {
    const { text, notes } = score(size);
    const rounds = size > 10_000 ? 3 : 7;
    const [parsing, marking] = medians([() => parse(text), () => mark(text)], rounds) as [number, number];
    const each = (1000 * marking) / notes;
    first ??= each;
    if (size >= 3000) {
      ratios!.push(marking / parsing);
      growths!.push(each / first);
    }
    console.log(
      `${notes} notes, ${(text.length / 1e6).toFixed(1)} million characters: parser ${parsing.toFixed(0)} ms, ` +
        `annotate ${marking.toFixed(0)} ms, ratio ${(marking / parsing).toFixed(2)} (aim 2.5); ` +
        `${each.toFixed(0)} µs a note, ${(each / first).toFixed(2)} times that of the smallest score`,
    );
  }
  const bounds = (all: readonly number[]) =>
    [Math.min(...all), Math.max(...all)].map((value) => Number(value.toFixed(1))) as [number, number];
  const [[ratioLeast, ratioMost], [growthLeast, growthMost]] = [bounds(ratios!), bounds(growths!)];
  record((figures) => ({ ...figures, annotate: { ratioLeast, ratioMost, growthLeast, growthMost } }));
}

printRatios();

const { text, notes } = score(5000);
describe(`${notes} notes`, () => {
  const settings = { time: 3000, warmupTime: 500 };
  bench("fast-xml-parser's own parse", () => parse(text), settings);
  bench('annotate', () => mark(text), settings);
});
