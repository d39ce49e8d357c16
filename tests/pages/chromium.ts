import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, chromium } from 'playwright-core';

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
