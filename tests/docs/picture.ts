import { readFileSync, writeFileSync } from 'node:fs';
import { annotate } from '@handline/core';
import { chromium } from 'playwright-core';
import { VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';

// npx tsx tests/docs/picture.ts: draws fixtures/demo/kelp-street-tunes.png, page 1 of the marked demo, for the README. To
// be run after `npm run build` when fingers or cues change, and looked at. Takes chromium and the font Liberation Serif,
// whose widths are those of the font with which verovio measures texts.

const DEMO = new URL('../../fixtures/demo/kelp-street-tunes.musicxml', import.meta.url);
const PICTURE = new URL('../../fixtures/demo/kelp-street-tunes.png', import.meta.url);
const CHROMIUM = '/usr/bin/chromium';

const toolkit = new VerovioToolkit(await createModule());
toolkit.setOptions({
  pageWidth: 2100,
  pageHeight: 2970,
  scale: 50,
  adjustPageHeight: true,
  footer: 'none',
  breaks: 'auto',
});
toolkit.loadData(annotate(readFileSync(DEMO, 'utf8')).output);
const svg = toolkit.renderToSVG(1).replaceAll(/font-family="Times[^"]*"/g, 'font-family="Liberation Serif"');

const browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] });
const page = await browser.newPage({ viewport: { width: 1200, height: 1600 } });
await page.setContent(`<style>body { margin: 0 } svg { display: block }</style>${svg}`);
// Elements are hidden until the music font, which the picture carries, is ready.
await page.evaluate('document.fonts.ready');
writeFileSync(PICTURE, await page.locator('svg').first().screenshot());
await browser.close();
