import { readFileSync } from 'node:fs';
import { DEMO } from './made.js';

/** The demo's first piece once for every name, as parts of two staves each. */
export function piecesOf(names: readonly string[], measures = 6): string {
  const text = readFileSync(DEMO, 'utf8');
  const [, music = ''] = /<part id="P1">([\s\S]*?)<\/part>/.exec(text)!;
  const own = music
    .split(/(?<=<\/measure>)/)
    .slice(0, measures)
    .join('');
  const listed = names.map(
    (name, nth) => `<score-part id="P${nth + 1}"><part-name>${name}</part-name></score-part>`,
  );
  const parts = names.map((_, nth) => `<part id="P${nth + 1}">${own}</part>`);
  return `<score-partwise version="4.0"><part-list>${listed.join('')}</part-list>${parts.join('')}</score-partwise>`;
}
