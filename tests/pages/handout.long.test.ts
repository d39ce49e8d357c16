import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AXE, launched, printed, whyNot } from './chromium.js';
import { DEMO, folder, made, measure, note, written } from './made.js';

if (whyNot !== undefined) console.log(`handouts are not opened in a browser: ${whyNot}`);

describe.skipIf(whyNot !== undefined)('a handout in Chromium', () => {
  let browser: Browser;
  let page: Page;
  const errors: string[] = [];

  beforeAll(async () => {
    const { path } = await made('open', DEMO, '--layers', 'depth,crossing,carry');
    browser = await launched();
    const context = await browser.newContext({ offline: true, bypassCSP: false });
    page = await context.newPage();
    page.on('pageerror', (error) => errors.push(error.message));
    page.on('console', (message) => errors.push(message.text()));
    page.on('request', (request) => {
      if (!/^(?:file|data):/.test(request.url())) errors.push(request.url());
    });
    await page.goto(pathToFileURL(path).href);
  });
  afterAll(() => browser?.close());

  it('opens from a file without a network and without a word on the console', () => {
    expect(errors).toEqual([]);
  });

  it.each(['screen', 'print'] as const)(
    'has every mark of a ribbon within 1 mm of its notes on %s',
    async (media) => {
      await page.emulateMedia({ media });
      const { worst, marks } = (await page.evaluate(`(() => {
      let worst = 0; let marks = 0;
      for (const figure of document.querySelectorAll('figure.system')) {
        const paper = figure.querySelector('.paper').getBoundingClientRect();
        const mm = paper.width / 180;
        const middle = (node) => { const box = node.getBoundingClientRect(); return (box.left + box.right) / 2; };
        const heads = [...figure.querySelectorAll('[data-note] .notehead')].map(middle);
        for (const mark of figure.querySelectorAll('.depth [data-slice]')) {
          marks += 1;
          worst = Math.max(worst, Math.min(...heads.map((x) => Math.abs(x - middle(mark)))) / mm);
        }
      }
      return { worst, marks };
    })()`)) as { worst: number; marks: number };
      console.log(`${marks} marks, the worst ${worst.toFixed(2)} mm from a notehead (${media})`);
      expect(marks).toBeGreaterThan(300);
      expect(worst).toBeLessThan(1);
    },
  );

  it('has its music in a typeface as narrow as the engraver laid it out for', async () => {
    // A figure of Times is half as wide as its type is high.
    const widths = (await page.evaluate(`[...document.querySelectorAll('.music .fing tspan > tspan')]
      .filter((one) => /^[1-5]$/.test(one.textContent))
      .map((one) => one.getComputedTextLength() / Number.parseFloat(getComputedStyle(one).fontSize))`)) as number[];
    expect(widths.length).toBeGreaterThan(500);
    for (const width of widths) expect(width).toBeCloseTo(0.5, 2);
  });

  it('has tempo marks over all digits below them, not only the first', async () => {
    const marked = (text: string) =>
      `<direction placement="above"><direction-type><words>${text}</words></direction-type><sound tempo="90"/></direction>`;
    const rising = note('C', 5) + note('C', 6) + note('E', 6) + note('G', 6);
    const marks = ['Allegro moderato e cantabile', 'Andante', 'Molto vivace e leggiero', 'Adagio'];
    const score = written(
      'tempo',
      marks.map((text, nth) => measure(nth + 1, marked(text) + rising)).join(''),
    );
    const { path } = await made('tempo', score, '--views', 'none', '--staff', 'right');
    const own = await page.context().newPage();
    await own.goto(pathToFileURL(path).href);
    const under = (await own.evaluate(`[...document.querySelectorAll('.music')].flatMap((system) => {
      const box = (one) => one.getBoundingClientRect();
      const digits = [...system.querySelectorAll('.fing text')].map(box);
      return [...system.querySelectorAll('.tempo text')].map(box).map((mark) => {
        // Both boxes hold a line's descenders and its room above; a fifth of either is blank.
        const below = digits.filter((digit) => digit.right > mark.left && digit.left < mark.right);
        return [below.length, Math.min(...below.map((digit) => digit.top + digit.height / 5 - (mark.bottom - mark.height / 5)))];
      });
    })`)) as [number, number][];
    await own.close();
    console.log(
      `tempo marks, digits under each and px between them: ${under.map(([count, room]) => `${count} ${room.toFixed(1)}`).join(', ')}`,
    );
    expect(under.length).toBe(marks.length);
    expect(Math.max(...under.map(([count]) => count))).toBeGreaterThan(2);
    for (const [, room] of under) expect(room).toBeGreaterThan(0);
  });

  it.each(['A4', 'Letter'] as const)('prints on %s without a broken system', async (format) => {
    const pdf = join(folder, `${format}.pdf`);
    const { pages, systems } = await printed(page, pdf, format);
    const captions = pdfText(pdf);
    console.log(`${format}: ${systems} systems on ${pages} pages`);
    expect(pages).toBeGreaterThan(systems / 4);
    expect(pages).toBeLessThan(systems);
    // Each page's text has as many first lines (captions) as bands that end: a system begun on a page ends on it.
    if (captions) {
      for (const own of captions) {
        const begun = own.match(/^\s*Measures? \d+(?:–\d+)?\s*$/gm)?.length ?? 0;
        const ended = own.match(/l\.h\. ↑ right/g)?.length ?? 0;
        expect(ended).toBe(begun);
      }
    }
  });

  it('has nothing serious for axe to find, in light and in dark', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ media: 'screen', colorScheme });
      await page.evaluate(readFileSync(AXE, 'utf8'));
      const { violations } = (await page.evaluate('axe.run()')) as {
        violations: { id: string; impact: string; nodes: { html: string }[] }[];
      };
      expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([]);
    }
  });

  it.each([390, 820, 1280])('fits %s pixels', async (width) => {
    await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
    await page.setViewportSize({ width, height: 900 });
    const scrolls = await page.evaluate('document.documentElement.scrollWidth');
    expect(scrolls).toBeLessThanOrEqual(width);
  });
});

/** Text of every page, where poppler is there to read it. */
function pdfText(path: string): string[] | undefined {
  try {
    return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
  } catch {
    console.log('the text of printed pages is not read: there is no pdftotext');
    return undefined;
  }
}
