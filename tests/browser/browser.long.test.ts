import * as core from '@handline/core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launched, whyNot } from '../pages/chromium.js';
import { bundled, bundledWorker } from './bundle.js';
import { expectSame, inWorker, type Made, refuse, SAMPLES, work } from './work.js';

if (whyNot !== undefined) console.log(`not run in a browser: ${whyNot}`);

describe.skipIf(whyNot !== undefined)('a bundle in Chromium', () => {
  let browser: Browser | undefined;
  let page: Page;
  let script = '';
  const errors: string[] = [];

  beforeAll(async () => {
    script = await bundled();
    browser = await launched();
    page = await browser.newPage();
    page.on('pageerror', (error) => errors.push(error.message));
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
    await page.addScriptTag({ content: script });
  });
  afterAll(() => browser?.close());

  it('marks and clears every kind of file as Node does', async () => {
    console.log(`Chromium ${browser!.version()}, a bundle of ${script.length} characters`);
    for (const { name, bytes } of SAMPLES) {
      const made = await page.evaluate(`(${work})(handline, ${JSON.stringify(bytes)})`);
      expectSame(made as Made, name, bytes);
    }
    expect(errors).toEqual([]);
  });

  it('refuses what is no score', async () => {
    expect(await page.evaluate(`(${refuse})(handline)`)).toBe('NOT_MUSICXML');
  });

  it('marks in a worker with progress, and an abort ends it', async () => {
    const [{ bytes }] = SAMPLES as [(typeof SAMPLES)[number]];
    const call = `(${inWorker})(handline, ${JSON.stringify(await bundledWorker())}, ${JSON.stringify(bytes)})`;
    const made = (await page.evaluate(call)) as Awaited<ReturnType<typeof inWorker>>;
    const { output, report } = core.annotate(Uint8Array.from(bytes), { language: 'fr' });
    expect(Buffer.compare(Buffer.from(made.marked), Buffer.from(output))).toBe(0);
    expect(made.report).toBe(JSON.stringify(report));
    expect(made.steps).toEqual(['reading', 'fingering', 'fingering', 'writing']);
    expect(made.refused).toBe('HandlineError NOT_MUSICXML');
    expect(made.aborted).toBe('AbortError');
    expect(made.broken).toContain('no such script');
    expect(errors).toEqual([]);
  });
});
