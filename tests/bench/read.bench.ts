import { XMLParser } from 'fast-xml-parser';
import { bench, describe } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { readScore } from '#core/musicxml/read/score.js';
import { PARSER_OPTIONS } from '#core/musicxml/xml/parse.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { attributes, backup, note, onePart } from '../musicxml/read-source.js';

/** Eighths over quarters, laid out as notation programs do, one element a line. */
function score(notes: number): string {
  const measures = Array.from({ length: Math.ceil(notes / 12) }, (_, at) => {
    const upper = Array.from({ length: 8 }, (__, k) =>
      note(`${'CDEFGAB'[(at * 3 + k) % 7]}${4 + (k % 2)}`, 2),
    );
    const low = { voice: '5', staff: 2 };
    const lower = Array.from({ length: 4 }, (__, k) => note(`${'CDEFGAB'[(at + 2 * k) % 7]}3`, 4, low));
    return (at === 0 ? attributes() : '') + upper.join('') + backup(16) + lower.join('');
  });
  return onePart(measures)
    .replaceAll('><', '>\n      <')
    .replaceAll(/>\n\s*<\/(\w+)>/g, '></$1>');
}

const options = { ...PARSER_OPTIONS, maxNestedTags: DEFAULT_LIMITS.maxDepth + 1 };
const context = { limits: DEFAULT_LIMITS };

for (const notes of [1000, 5000, 20_000]) {
  const text = score(notes);
  describe(`${notes} notes, ${(text.length / 1e6).toFixed(1)} million characters`, () => {
    const settings = { time: 1500, warmupTime: 300 };
    bench("fast-xml-parser's own parse", () => void new XMLParser(options).parse(text), settings);
    bench('tree with the check of well-formedness', () => void parseTree(text, DEFAULT_LIMITS), settings);
    bench(
      'tree, score and lines',
      () => void buildLines(readScore(parseTree(text, DEFAULT_LIMITS), text, context).score),
      settings,
    );
  });
}
