import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { handline } from '../cli/harness.js';
import { ROOT } from '../musicxml/read-source.js';

const CHROMIUM = '/usr/bin/chromium';
const DEMO = join(ROOT, 'fixtures/demo/kelp-street-tunes.musicxml');
const BARE = join(ROOT, 'fixtures/page/low-tide.musicxml');
const FINGERED = join(ROOT, 'fixtures/scores/schumann-op15-1.musicxml');
const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const folder = mkdtempSync(join(tmpdir(), 'handout-'));

async function made(name: string, ...args: string[]): Promise<{ path: string; html: string }> {
  const path = join(folder, `${name}.html`);
  const { code, stderr } = await handline(['handout', ...args, '-o', path, '--force'], folder);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return { path, html: readFileSync(path, 'utf8') };
}

describe('handline handout', () => {
  it('is one page without a script and without anything to load', async () => {
    const { html } = await made('plain', DEMO, '--measures', '1-8');
    expect(html).not.toMatch(/<script|<link|<iframe|<img|\son\w+=|url\((?!data:)|@import/i);
    expect(html.match(/(?:src|href)="[^#"][^"]*"/g)).toBeNull();
    expect(html).toContain(`content="default-src 'none'; style-src 'unsafe-inline'; font-src data:"`);
    expect(html).toContain('Stop at pain, numbness or fatigue');
    expect(html).toContain('LGPL');
    const ids = [...html.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('keeps what is typed as text and says nothing that was not asked for', async () => {
    const evil = '</style><script>alert("x")</script>&amp;';
    const { html } = await made(
      'typed',
      DEMO,
      '--measures',
      '1-2',
      '--title',
      evil,
      '--student',
      'דנה',
      '--notes',
      evil,
    );
    expect(html).not.toContain('<script');
    expect(
      html.split('&lt;/style&gt;&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;&amp;amp;').length,
    ).toBe(4);
    expect(html).toContain('<bdi>דנה</bdi>');
    const { html: bare } = await made('bare', DEMO, '--measures', '1-2');
    expect(bare).toContain('<h1 dir="auto">Kelp Street Tunes</h1></header>');
    expect(bare).not.toContain('Notes from your teacher');
    expect(bare).toBe((await made('again', DEMO, '--measures', '1-2')).html);
  });

  it.each([
    ['de', 'Was die Zeichen bedeuten'],
    ['fr', 'Ce que veulent dire les signes'],
    ['es', 'Qué significan los signos'],
    ['it', 'Che cosa vogliono dire i segni'],
  ])('speaks %s throughout', async (language, heading) => {
    const { html } = await made(language, FINGERED, '--measures', '1-4', '--language', language);
    const { html: english } = await made('en', FINGERED, '--measures', '1-4');
    const headings = (page: string) =>
      [...page.matchAll(/<h2>([^<]*)<\/h2>|<title>([^<]*)<\/title>/g)].map(([, h2, title]) => h2 ?? title!);
    expect(headings(html)).toContain(heading);
    // The first title is that of the score itself.
    const own = headings(english).slice(1);
    for (const text of headings(html).slice(1)) expect(own).not.toContain(text);
    expect(html).toContain(`<html lang="${language}">`);
    expect(html.replaceAll(/<style[^>]*>[\s\S]*?<\/style>/g, '')).not.toMatch(/\{\w+\}/);
  });

  it('explains the cues and signs that occur, and no others', async () => {
    const { html } = await made('legend', DEMO, '--measures', '1-1', '--hands', 'right', '--layers', 'none');
    const [, legend = ''] = /<ul class="legend">(.*?)<\/ul>/.exec(html)!;
    expect(legend).not.toContain('the forearm moves towards the fallboard');
    expect(html.match(/class="handline-picture depth"/g)).toHaveLength(1);
    const { html: all } = await made('all', DEMO, '--layers', 'depth,crossing,carry');
    expect(all).toContain('the thumb passes behind the finger that plays');
    expect(all).toContain('class="handline-picture carry"');
  });

  it('shows the keyboard where it is asked to', async () => {
    const { html } = await made('views', DEMO, '--views', '2:1,3', '--hands', 'right');
    expect(html.match(/class="view"/g)).toHaveLength(2);
    expect(html).toContain('Measure 2, beat 1, right hand');
    const { html: none } = await made('none', DEMO, '--views', 'none');
    expect(none).not.toContain('class="view"');
    const bad = await handline(['handout', DEMO, '-o', join(folder, 'bad.html'), '--views', '999'], folder);
    expect(bad.code).toBe(2);
    expect(existsSync(join(folder, 'bad.html'))).toBe(false);
  });

  it('compares the printed fingering with an easier one', async () => {
    const { html } = await made('compare', FINGERED, '--compare', '--measures', '1-8');
    expect(html).toMatch(/as printed<\/figcaption>/);
    expect(html).toMatch(/, easier<\/figcaption>/);
    const [, printed, easier] = /(\d+) mm as printed, (\d+) mm/.exec(html)!;
    expect(Number(easier)).toBeLessThanOrEqual(Number(printed));
    const none = await handline(['handout', BARE, '--compare', '-o', join(folder, 'no.html')], folder);
    expect(none.code).toBe(1);
    expect(none.stderr).toContain('--compare needs a fingering in print');
  });

  it('refuses what is no score, and options of mark that mean nothing here', async () => {
    const bad = join(folder, 'bad.musicxml');
    writeFileSync(bad, '<html/>');
    expect((await handline(['handout', bad, '-o', join(folder, 'x.html')], folder)).code).toBe(1);
    expect((await handline(['handout', DEMO, '--legend', '-o', join(folder, 'x.html')], folder)).code).toBe(
      2,
    );
    expect(
      (await handline(['handout', DEMO, '--measures', '900', '-o', join(folder, 'x.html')], folder)).code,
    ).toBe(2);
    expect(existsSync(join(folder, 'x.html'))).toBe(false);
  });

  it('stays under 2 MB for the whole demo', async () => {
    const { html } = await made('whole', DEMO);
    console.log(`handout of the demo: ${Math.round(html.length / 1024)} KiB`);
    expect(html.length).toBeLessThan(2 * 1024 * 1024);
  });
});

const why = existsSync(CHROMIUM) ? undefined : `there is no ${CHROMIUM}`;
if (why !== undefined) console.log(`handouts are not opened in a browser: ${why}`);

describe.skipIf(why !== undefined)('a handout in Chromium', () => {
  let browser: Browser;
  let page: Page;
  const errors: string[] = [];

  beforeAll(async () => {
    const { path } = await made('open', DEMO, '--layers', 'depth,crossing,carry');
    browser = await chromium.launch({
      executablePath: CHROMIUM,
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    });
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

  it.each(['A4', 'Letter'])('prints on %s without a broken system', async (format) => {
    await page.emulateMedia({ media: 'print' });
    const pdf = join(folder, `${format}.pdf`);
    await page.pdf({ path: pdf, format });
    const pages = readFileSync(pdf, 'latin1').match(/\/Type\s*\/Page\b(?!s)/g)!.length;
    // A block that a page cannot hold is the only one that is cut in spite of break-inside.
    const room = (format === 'A4' ? 297 : 279.4) - 28;
    const heights = (await page.evaluate(
      `[...document.querySelectorAll('figure.system')].map((one) => [one.getBoundingClientRect().height * 25.4 / 96, getComputedStyle(one).breakInside])`,
    )) as [number, string][];
    for (const [height, inside] of heights) {
      expect(height).toBeLessThan(room);
      expect(inside).toBe('avoid');
    }
    const systems = heights.length;
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
