import type { Browser, Page } from 'playwright-core';

/** ms that a step may take on a busy machine. */
export const READY = 60_000;

/** What the page must not do, as it does it: errors, words on the console, requests. */
export const complaints: string[] = [];

/** The page from a file, without a network. */
export async function opened(
  browser: Browser,
  url: string,
  { width = 1280, dark = false } = {},
): Promise<Page> {
  const context = await browser.newContext({
    offline: true,
    acceptDownloads: true,
    viewport: { width, height: 900 },
    colorScheme: dark ? 'dark' : 'light',
  });
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => complaints.push(message.text()));
  page.on('request', (request) => {
    if (!/^(?:file|data|blob):/.test(request.url())) complaints.push(request.url());
  });
  await page.goto(url);
  return page;
}

/** Waits until this holds in the page. Asked from outside, because the page's policy lets no text become a script. */
export async function until(page: Page, holds: string, within = READY): Promise<void> {
  const end = performance.now() + within;
  while (!(await page.evaluate(holds))) {
    if (performance.now() > end) throw new Error(`not within ${within} ms: ${holds}`);
    await new Promise((done) => setTimeout(done, 20));
  }
}

/** Everything is fingered and engraved. */
export function ready(page: Page, within = 4 * READY): Promise<void> {
  const holds = `document.getElementById('music').ariaBusy === 'false'`;
  return until(page, holds, within);
}

/** Drops a file on the page, as from a folder. */
export async function drop(page: Page, name: string, bytes: Uint8Array): Promise<void> {
  const data = await page.evaluateHandle(
    ([text, called]) => {
      const transfer = new DataTransfer();
      const file = Uint8Array.from(atob(text!), (one) => one.charCodeAt(0));
      transfer.items.add(new File([file], called!));
      return transfer;
    },
    [Buffer.from(bytes).toString('base64'), name],
  );
  await page.dispatchEvent('body', 'drop', { dataTransfer: data });
}
