import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { unreadablePages } from '../resave/programs.js';
import { FIXTURES } from '../scores.js';

const SCORES = ['demo/kelp-street-tunes', 'page/low-tide', 'page/long-swell'];
/** Points of an A4 page, on which MuseScore prints. */
const PAGE_WIDTH = 595;

/** How often each word of letters occurs. */
function countOf(words: Iterable<string>): Map<string, number> {
  const counts = new Map<string, number>();
  for (const word of words) if (/^\p{L}{2,}$/u.test(word)) counts.set(word, (counts.get(word) ?? 0) + 1);
  return counts;
}

/** pdftotext gives no word that lies wholly off the page, so each must be there as often as it was written. */
describe.skipIf(unreadablePages !== undefined)('cues are printed whole in MuseScore 3', () => {
  it.each(SCORES)('%s, to the end of each line', (name) => {
    const { output } = annotate(readFileSync(`${FIXTURES}${name}.musicxml`, 'utf8'), { density: 'every' });
    const cues = [...output.matchAll(/<\?handline cue (\S*?)\?>/g)].flatMap(([, text]) =>
      decodeURIComponent(text!).split(/\s+/),
    );
    const folder = mkdtempSync(join(tmpdir(), 'handline-cues-'));
    try {
      const [score, pdf] = [join(folder, 'a.musicxml'), join(folder, 'a.pdf')];
      writeFileSync(score, output);
      const env = { ...process.env, QT_QPA_PLATFORM: 'offscreen' };
      execFileSync('musescore3', ['-o', pdf, score], { env, stdio: 'ignore' });
      const html = execFileSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8' });
      const words = [...html.matchAll(/<word xMin="(.*?)" .*? xMax="(.*?)" .*?>(.*?)<\/word>/g)];
      const printed = countOf(words.map(([, , , text]) => text!));
      const written = countOf(cues);
      expect(written.size).toBeGreaterThan(1);
      for (const [word, times] of written) expect(printed.get(word) ?? 0, word).toBeGreaterThanOrEqual(times);
      const off = words.filter(([, left, right]) => Number(left) < 0 || Number(right) > PAGE_WIDTH);
      console.log(`${name} in MuseScore 3: ${cues.length} words of cues, ${off.length} over the page's edge`);
      expect(off.map(([, , , text]) => text)).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

if (unreadablePages !== undefined) console.log(unreadablePages);
