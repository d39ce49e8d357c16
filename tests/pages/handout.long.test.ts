import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AXE, launched, printed, whyNot } from './chromium.js';
import { DEMO, folder, made } from './made.js';

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
