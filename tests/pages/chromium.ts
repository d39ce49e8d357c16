import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, chromium, type Page } from 'playwright-core';
import { expect } from 'vitest';

const CHROMIUM = '/usr/bin/chromium';

/** The text of axe-core, to be run in a page. */
export const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** Why there is no browser; undefined where there is one. */
export const whyNot = existsSync(CHROMIUM) ? undefined : `there is no ${CHROMIUM}`;

/** No sandbox, because tests run as root; nothing that looks for a network. */
export function launched(): Promise<Browser> {
  return chromium.launch({
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
}

/** mm of a page between the margins above and below, and between those at its sides. */
const ROOM = { A4: 297 - 28, Letter: 279.4 - 28 };
const WIDTH = { A4: 210 - 30, Letter: 215.9 - 30 };

/** Prints a page to a file and sees that no system is cut. The page stays as it is for print. */
export async function printed(page: Page, pdf: string, format: keyof typeof ROOM) {
  await page.emulateMedia({ media: 'print' });
  await page.pdf({ path: pdf, format });
  const pages = readFileSync(pdf, 'latin1').match(/\/Type\s*\/Page\b(?!s)/g)!.length;
  // As wide as on paper, so that it is as high.
  const screen = page.viewportSize()!;
  await page.setViewportSize({ width: Math.round((WIDTH[format] * 96) / 25.4), height: screen.height });
  const heights = (await page.evaluate(
    `[...document.querySelectorAll('figure.system')].map((one) => [one.getBoundingClientRect().height * 25.4 / 96, getComputedStyle(one).breakInside])`,
  )) as [number, string][];
  await page.setViewportSize(screen);
  // A block that a page cannot hold is the only one that is cut in spite of break-inside.
  for (const [height, inside] of heights) {
    expect(height).toBeLessThan(ROOM[format]);
    expect(inside).toBe('avoid');
  }
  return {
    pages,
    systems: heights.length,
    least: pagesFor(
      heights.map(([height]) => height),
      ROOM[format],
    ),
  };
}

/** Pages that systems fill one after the other, as many on each as fit. */
function pagesFor(heights: readonly number[], room: number): number {
  let [pages, left] = [1, room];
  for (const height of heights) {
    if (height > left) [pages, left] = [pages + 1, room];
    left -= height;
  }
  return pages;
}
