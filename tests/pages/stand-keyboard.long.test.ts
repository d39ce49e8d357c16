import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { annotate, setDigits } from '@handline/core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { handline } from '../cli/harness.js';
import { launched, whyNot } from './chromium.js';
import { DEMO, folder } from './made.js';
import { complaints, opened, READY, ready, until } from './stand-page.js';

/** What has the focus: its name, and whether its outline is drawn where one can see it. */
const FOCUS = `(() => {
  const own = document.activeElement;
  const { outlineStyle, outlineWidth } = getComputedStyle(own);
  const { left, top, right, bottom } = own.getBoundingClientRect();
  const [x, y] = [(left + right) / 2, Math.max(top, 0) / 2 + Math.min(bottom, innerHeight) / 2];
  const there = document.elementFromPoint(x, y);
  return {
    name: own.id || own.dataset.finger || own.textContent,
    tag: own.tagName,
    isSeen: outlineStyle === 'solid' && parseFloat(outlineWidth) >= 2 && own.contains(there),
  };
})()`;

/** All that one can work with, in the order of the page. */
const CONTROLS = `[...document.querySelectorAll('button, select, input, textarea, summary, [tabindex="0"]')]
  .filter((own) => own.checkVisibility())
  .map((own) => own.id || own.dataset.finger || own.textContent)`;

interface Focus {
  readonly name: string;
  readonly tag: string;
  readonly isSeen: boolean;
}

describe.skipIf(whyNot !== undefined)('the stand by keyboard alone', { timeout: 300_000 }, () => {
  let browser: Browser;
  let page: Page;
  const demo = readFileSync(DEMO);

  beforeAll(async () => {
    const path = join(folder, 'stand-keyboard.html');
    expect((await handline(['stand', '-o', path, '--force'], folder)).code).toBe(0);
    browser = await launched();
    page = await opened(browser, pathToFileURL(path).href);
    page.on('filechooser', (chooser) => chooser.setFiles(DEMO));
  });
  afterAll(() => browser?.close());
  afterEach(() => expect(complaints).toEqual([]));

  const focused = () => page.evaluate(FOCUS) as Promise<Focus>;
  /** What has the focus once it is seen, or after a second: what scrolls past is laid out first. */
  const settled = async (): Promise<Focus> => {
    for (let nth = 0; nth < 20 && !(await focused()).isSeen; nth++) await page.waitForTimeout(50);
    return focused();
  };
  const press = (...keys: string[]) => Promise.all(keys.map((key) => page.keyboard.press(key)));
  /** Goes on from where the focus is. */
  const tabTo = async (name: string, key = 'Tab') => {
    for (let nth = 0; nth < 60 && (await focused()).name !== name; nth++) await press(key);
    expect((await focused()).name).toBe(name);
  };
  const chosen = async (holds: string) => {
    await until(page, `document.getElementById('chosen').textContent.includes(${JSON.stringify(holds)})`);
    await ready(page);
  };

  it('opens a score', async () => {
    await until(page, `document.getElementById('caution').textContent.includes('Stop at pain')`);
    await tabTo('open');
    expect((await focused()).isSeen).toBe(true);
    await press('Enter');
    await page.waitForSelector('.music', { timeout: READY });
    await ready(page);
  });

  it('goes through every control in the order of the page and back, each seen, and out again', async () => {
    // What is folded is opened on the way.
    const way: Focus[] = [];
    await press('Shift+Tab');
    expect((await focused()).tag).toBe('BODY');
    for (const key of ['Tab', 'Shift+Tab']) {
      const begun = way.length;
      for (let nth = 0; nth < 100; nth++) {
        await press(key);
        const focus = await settled();
        // Behind the last control the browser's own are next, or the first again where it has none.
        if (focus.tag === 'BODY' && way.length === begun) continue;
        if (focus.tag === 'BODY' || focus.name === way[begun]?.name) break;
        way.push(focus);
        if (
          key === 'Tab' &&
          focus.tag === 'SUMMARY' &&
          !(await page.evaluate('document.activeElement.parentElement.open'))
        )
          await press('Enter');
      }
      const names = way.slice(begun).map(({ name }) => name);
      const all = (await page.evaluate(CONTROLS)) as string[];
      expect(names).toEqual(key === 'Tab' ? all : all.reverse());
    }
    expect(way.filter(({ isSeen }) => !isSeen)).toEqual([]);
    const names = way.map(({ name }) => name);
    for (const name of ['save', 'music', '5', 'back', 'lower', 'language', 'layer-roll', 'words', 'sheet'])
      expect(names).toContain(name);
  });

  it('takes every digit at the note that the arrow keys choose, back and forth', async () => {
    await tabTo('music');
    const first = await page.textContent('#chosen');
    await press('ArrowRight', 'ArrowDown', 'ArrowUp', 'ArrowRight');
    await chosen('Measure 1, beat 2, right hand, B4');
    expect(await page.textContent('#chosen')).not.toBe(first);
    const own = Number(await page.textContent('[data-finger][aria-pressed="true"]'));
    const fingers = [1, 2, 3, 4, 5].filter((finger) => finger !== own);
    for (const finger of [...fingers, own]) {
      await press(`${finger}`);
      await chosen(`finger ${finger}, yours`);
    }
    for (const finger of [...fingers].reverse()) {
      await press('Control+z');
      await chosen(`finger ${finger}, yours`);
    }
    await press('Control+z');
    await chosen(`finger ${own}, Handline’s`);
    await press('Control+y');
    await chosen(`finger ${fingers[0]}, yours`);
    expect((await focused()).name).toBe('music');
  });

  it('keeps the focus on a button that has done all it can', async () => {
    await tabTo('back');
    await press('Enter');
    await chosen('Handline’s');
    expect(await focused()).toMatchObject({ name: 'back', isSeen: true });
    expect(await page.getAttribute('#back', 'aria-disabled')).toBe('true');
    await press('Enter');
    await tabTo('undo', 'Shift+Tab');
    await press('Enter');
    await chosen('yours');
    await press('Enter');
    await chosen('Handline’s');
    await press('Enter');
    expect(await focused()).toMatchObject({ name: 'undo', isSeen: true });
    await tabTo('redo');
    await press('Space');
    await chosen('yours');
    expect(await page.getAttribute('#undo', 'aria-disabled')).toBe('false');
  });

  it('reads why, compares, and saves', async () => {
    await page.waitForSelector('#why li', { timeout: READY });
    expect(await page.textContent('#why')).toMatch(/Handline would take \d|next best finger is \d/);
    expect(await page.textContent('#compared')).toMatch(/Measure 1, beat 2, right hand, B4: \d → \d/);
    const finger = Number(await page.textContent('[data-finger][aria-pressed="true"]')) as 1;
    const { offset } = annotate(demo).report.lines[0]!.slices[2]!.notes[0]!;
    const { output } = annotate(setDigits(new Uint8Array(demo), [{ offset, finger }]).output);
    await tabTo('save');
    const download = page.waitForEvent('download');
    await press('Enter');
    expect(Buffer.compare(readFileSync(await (await download).path()), output)).toBe(0);
    expect((await focused()).name).toBe('save');
  });
});
