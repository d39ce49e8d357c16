import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { handline } from '../cli/harness.js';
import { ROOT } from '../musicxml/read-source.js';
import { AXE, launched, whyNot } from './chromium.js';
import { DEMO, folder } from './made.js';
import { complaints, drop, opened, READY, ready } from './stand-page.js';

describe.skipIf(whyNot !== undefined)('the stand in Chromium, small and large', { timeout: 300_000 }, () => {
  let browser: Browser;
  let address: string;

  beforeAll(async () => {
    const path = join(folder, 'stand.html');
    expect((await handline(['stand', '-o', path, '--force'], folder)).code).toBe(0);
    address = pathToFileURL(path).href;
    browser = await launched();
  });
  afterAll(() => browser?.close());
  afterEach(() => expect(complaints).toEqual([]));

  it.each([
    [390, false],
    [820, false],
    [1280, false],
    [1280, true],
  ])('fits %s pixels, can be touched, and axe finds nothing serious (dark: %s)', async (width, dark) => {
    const path = join(folder, 'with-score.html');
    const page = join(ROOT, 'fixtures/scores/schumann-op15-1.musicxml');
    expect((await handline(['stand', page, '-o', path, '--force'], folder)).code).toBe(0);
    const own = await opened(browser, pathToFileURL(path).href, { width, dark });
    await ready(own);
    await own.evaluate(readFileSync(AXE, 'utf8'));
    const { violations } = (await own.evaluate('axe.run()')) as {
      violations: { id: string; impact: string; nodes: { html: string }[] }[];
    };
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([]);
    expect(await own.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
    const small = (await own.evaluate(
      `[...document.querySelectorAll('button, select, input, textarea, summary')]
        .map((one) => (one.type === 'checkbox' ? one.closest('label') : one))
        .filter((one) => one.checkVisibility())
        .map((one) => [one.id || one.textContent, one.getBoundingClientRect()])
        .filter(([, { width, height }]) => width < 44 || height < 44)
        .map(([name, { width, height }]) => [name, width, height])`,
    )) as unknown[];
    expect(small).toEqual([]);
    const pictures = process.env.HANDLINE_PICTURES;
    if (pictures) await own.screenshot({ path: join(pictures, `stand-${width}${dark ? '-dark' : ''}.png`) });
    await own.context().close();
  });

  it('shows a score of 5,000 notes as it is engraved, and can be stopped', { timeout: 900_000 }, async () => {
    const own = await opened(browser, address);
    const begun = performance.now();
    await own.evaluate(WATCH);
    await drop(own, 'long.musicxml', new TextEncoder().encode(long(5000)));
    await own.waitForSelector('.music', { timeout: 4 * READY });
    const first = performance.now() - begun;
    await own.click('[data-finger="5"]');
    await own.waitForSelector('.music .yours', { timeout: 4 * READY });
    await ready(own, 12 * READY);
    const systems = await own.locator('.system').count();
    console.log(
      `5,000 notes: first systems after ${Math.round(first)} ms, all ${systems} after ${Math.round(performance.now() - begun)} ms, with a digit changed meanwhile`,
    );
    expect(systems).toBeGreaterThan(60);
    // The bar was seen, at work for both, with shares that grew until the next work or the next turn began.
    const bars = (await own.evaluate('window.bars')) as [text: string, share: number][];
    expect(await own.locator('#progress').isHidden()).toBe(true);
    for (const text of ['Working out the fingering', 'Engraving']) {
      const shares = bars.filter(([name]) => name === text).map(([, share]) => share);
      expect(new Set(shares).size, text).toBeGreaterThan(2);
      expect(shares.every((share) => share >= 0 && share <= 1)).toBe(true);
      const backwards = shares.filter((share, nth) => nth > 0 && share < shares[nth - 1]!);
      expect(backwards.length, text).toBeLessThanOrEqual(2);
    }
    await own.click('[data-finger="1"]');
    await own.click('#stop', { timeout: READY });
    await own.waitForSelector('.music .yours', { timeout: READY });
    await ready(own);
    expect(await own.textContent('[data-finger="5"][aria-pressed="true"]')).toBe('5');
    await own.context().close();
  });
});

/** Notes what the bar shows whenever it changes. */
const WATCH = `
  window.bars = [];
  const bar = document.getElementById('progress');
  const note = () => {
    const last = window.bars.at(-1);
    const now = [document.getElementById('status').textContent, bar.value];
    if (!bar.hidden && bar.hasAttribute('value') && String(last) !== String(now)) window.bars.push(now);
  };
  new MutationObserver(note).observe(bar, { attributes: true });
`;

/** The demo's measures again and again. */
function long(notes: number): string {
  const text = readFileSync(DEMO, 'utf8');
  const start = text.indexOf('<measure');
  const end = text.lastIndexOf('</measure>') + '</measure>'.length;
  const body = text.slice(start, end);
  let measure = 0;
  const copies = Array.from({ length: Math.ceil(notes / (body.split('<note').length - 1)) }, () =>
    body.replaceAll(/<measure number="[^"]*"/g, () => `<measure number="${++measure}"`),
  );
  return text.slice(0, start) + copies.join('\n') + text.slice(end);
}
