import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { annotate, type NoteDigit, setDigits } from '@handline/core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { handline } from '../cli/harness.js';
import { bytesOf } from '../musicxml/read-source.js';
import { launched, printed, whyNot } from './chromium.js';
import { DEMO, folder } from './made.js';
import { complaints, drop, opened, READY, ready, until } from './stand-page.js';

if (whyNot !== undefined) console.log(`the stand is not opened in a browser: ${whyNot}`);

const demo = readFileSync(DEMO);

describe.skipIf(whyNot !== undefined)('the stand in Chromium', { timeout: 300_000 }, () => {
  let browser: Browser;
  let address: string;
  let page: Page;

  beforeAll(async () => {
    const path = join(folder, 'stand.html');
    expect((await handline(['stand', '-o', path, '--force'], folder)).code).toBe(0);
    address = pathToFileURL(path).href;
    browser = await launched();
    page = await opened(browser, address);
  });
  afterAll(() => browser?.close());
  afterEach(() => expect(complaints).toEqual([]));

  const digitOf = (id: string) =>
    page.evaluate(
      (own) =>
        document.querySelector(`[data-digit-of="${own}"] text:not(.before)`)?.textContent?.trim() ?? '',
      id,
    );
  const allDigits = () =>
    page.evaluate(
      `[...document.querySelectorAll('[data-digit-of]')].map((one) => one.dataset.digitOf + ' ' + one.querySelector('text:not(.before)').textContent.trim())`,
    );
  const saved = async (id: string): Promise<Buffer> => {
    const download = page.waitForEvent('download');
    await page.click(id);
    return readFileSync(await (await download).path());
  };

  it('opens a dropped score, and says how long that took', async () => {
    const begun = performance.now();
    await drop(page, 'kelp-street-tunes.musicxml', demo);
    await page.waitForSelector('.music', { timeout: READY });
    const first = performance.now() - begun;
    await ready(page);
    console.log(
      `demo: first systems after ${Math.round(first)} ms, all after ${Math.round(performance.now() - begun)} ms`,
    );
    expect(await page.textContent('#name')).toContain('Kelp Street Tunes');
    expect(await page.textContent('#caution')).toContain('Stop at pain, numbness or fatigue');
    expect(await page.locator('.system').count()).toBeGreaterThan(5);
  });

  it('takes a digit by mouse and one by keyboard, follows, and takes them back', async () => {
    const before = await allDigits();
    const head = page.locator('[data-note="note-0-2"] .notehead').first();
    await head.click();
    expect(await page.textContent('#chosen')).toContain('Measure 1, beat 2, right hand, B4');
    const begun = performance.now();
    await page.click('[data-finger="4"]');
    await page.waitForSelector('[data-digit-of="note-0-2"] .yours');
    const shown = performance.now() - begun;
    await ready(page);
    console.log(
      `demo: the new digits after ${Math.round(shown)} ms, engraved after ${Math.round(performance.now() - begun)} ms`,
    );
    expect(await digitOf('note-0-2')).toBe('4');
    expect(await page.textContent('#chosen')).toContain('finger 4, yours');
    await page.focus('#music');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('3');
    await page.waitForSelector('[data-digit-of="note-0-4"] .yours');
    await ready(page);
    expect(await digitOf('note-0-4')).toBe('3');
    await page.keyboard.press('Control+z');
    await until(page, `!document.querySelector('[data-digit-of="note-0-4"] .yours')`);
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Backspace');
    await until(page, `!document.querySelector('.music .yours')`);
    await ready(page);
    expect(await allDigits()).toEqual(before);
    await page.click('#undo');
    await page.waitForSelector('[data-digit-of="note-0-2"] .yours');
    await page.click('#redo');
    await until(page, `!document.querySelector('.music .yours')`);
    await ready(page);
  });

  it('keeps the settings over a reload, with the page from a file', async () => {
    const own = await opened(browser, address);
    const chosen = () =>
      own.evaluate(
        `[...document.querySelectorAll('#form select')].map(({ value }) => value).join() + document.getElementById('layer-roll').checked`,
      );
    await own.selectOption('#language', 'de');
    await own.selectOption('#span-left', '8th');
    await own.check('#layer-roll');
    await own.reload();
    await until(own, `document.querySelector('#form select')`);
    expect(await chosen()).toBe('de,medium,8th,essentialtrue');
    const other = await opened(browser, address);
    expect(await other.inputValue('#language')).toBe('en');
    await Promise.all([own.context().close(), other.context().close()]);
  });

  it('says why, and compares with the state before', async () => {
    await page.focus('#music');
    await page.keyboard.press('4');
    await page.waitForSelector('.music .yours');
    await ready(page);
    await page.click('#compare summary');
    await page.waitForSelector('#compared li');
    expect(await page.textContent('#compared')).toMatch(/Measure 1, beat 2, right hand, B4: \d → 4/);
    // On the music too: the digit of before, crossed out beside the one of now.
    await page.waitForSelector('[data-digit-of="note-0-2"] text.before');
    const [, before] = /B4: (\d) → 4/.exec((await page.textContent('#compared'))!)!;
    expect(await page.textContent('[data-digit-of="note-0-2"] text.before')).toBe(before);
    await page.waitForSelector('#why li', { timeout: READY });
    expect(await page.textContent('#why')).toMatch(/Handline would take \d/);
    await page.waitForSelector('#keyboard svg');
  });

  it('saves what the command writes for the same choices, score and handout', async () => {
    const { report } = annotate(demo);
    const offsets = report.lines[0]!.slices.map(({ notes }) => notes[0]!.offset);
    const digits: NoteDigit[] = [{ offset: offsets[2]!, finger: 4 }];
    const given = setDigits(new Uint8Array(demo), digits).output;
    const path = join(folder, 'kelp-street-tunes.musicxml');
    writeFileSync(path, given);
    for (const [command, id, output] of [
      ['mark', '#save', 'marked.musicxml'],
      ['handout', '#sheet', 'handout.html'],
    ] as const) {
      if (command === 'handout') await page.click('#handout summary');
      const out = join(folder, output);
      expect((await handline([command, path, '-o', out, '--force'], folder)).code).toBe(0);
      expect(Buffer.compare(await saved(id), readFileSync(out)), command).toBe(0);
    }
    expect(await page.textContent('#status')).toContain('kelp-street-tunes-handout.html');
  });

  it('saves the digit that was typed just before', async () => {
    await page.focus('#music');
    await page.keyboard.press('5');
    const text = (await saved('#save')).toString();
    const [line] = annotate(demo).report.lines;
    const given = setDigits(new Uint8Array(demo), [{ offset: line!.slices[2]!.notes[0]!.offset, finger: 5 }]);
    expect(text).toBe(Buffer.from(annotate(given.output).output as Uint8Array).toString());
    await page.focus('#music');
    await page.keyboard.press('4');
    await page.waitForSelector('.music .yours');
    await ready(page);
  });

  it('asks before another score takes the place of digits that are not saved', async () => {
    const asked: string[] = [];
    page.once('dialog', (dialog) => {
      asked.push(dialog.message());
      dialog.dismiss();
    });
    await drop(page, 'another.musicxml', demo);
    await expect.poll(() => asked).toEqual([expect.stringContaining('another.musicxml')]);
    expect(await page.textContent('#name')).toContain('kelp-street-tunes.musicxml');
    expect(await digitOf('note-0-2')).toBe('4');
  });

  it('refuses a bad file and keeps what is there', async () => {
    page.once('dialog', (dialog) => dialog.accept());
    await drop(page, 'notes.txt', new TextEncoder().encode('<html/>'));
    await until(page, `document.getElementById('alert').textContent !== ''`);
    expect(await page.textContent('#alert')).toContain('notes.txt');
    expect(await page.textContent('#name')).toContain('Kelp Street Tunes');
    expect(await digitOf('note-0-2')).toBe('4');
    await ready(page);
    await page.click('#undo');
    await ready(page);
    // What was refused is not told of any longer.
    expect(await page.textContent('#alert')).toBe('');
    for (;;) {
      await page.click('#undo');
      await ready(page);
      if ((await page.getAttribute('#undo', 'aria-disabled')) === 'true') break;
    }
    await until(page, `!document.querySelector('.music .yours')`);
  });

  it('opens a score with the choices made meanwhile', async () => {
    const other = await opened(browser, address);
    await drop(other, 'kelp-street-tunes.musicxml', demo);
    await other.selectOption('#language', 'de');
    await until(other, `document.getElementById('status').textContent === 'Bereit'`);
    expect(await other.textContent('.system figcaption')).toContain('Takte');
    const download = other.waitForEvent('download');
    await other.click('#save');
    const text = readFileSync(await (await download).path(), 'utf8');
    expect(text).toBe(
      Buffer.from(annotate(new Uint8Array(demo), { language: 'de' }).output as Uint8Array).toString(),
    );
    await other.context().close();
  });

  it('speaks another language and draws other cues', async () => {
    await page.selectOption('#language', 'de');
    await until(page, `document.getElementById('status').textContent === 'Bereit'`);
    expect(await page.textContent('#caution')).toContain('Schmerz');
    expect(await page.textContent('.system figcaption')).toContain('Takte');
    await page.check('#layer-carry');
    await page.waitForSelector('.handline-picture.carry', { timeout: READY });
    await ready(page);
    await page.click('#signs summary');
    const legend = await page.textContent('#signs ul');
    for (const text of ['der Daumen geht hinter', 'der Arm die Klaviatur entlang'])
      expect(legend).toContain(text);
    for (const text of ['Handgelenk', 'übergreifen', 'rollen']) expect(legend).not.toContain(text);
    await page.selectOption('#language', 'en');
    await ready(page);
  });

  it.each(['A4', 'Letter'] as const)('prints on %s without a broken system', async (format) => {
    const pdf = join(folder, `stand-${format}.pdf`);
    const { pages, systems, least } = await printed(page, pdf, format);
    await page.emulateMedia({ media: 'screen' });
    console.log(`${format}: ${systems} systems on ${pages} pages, ${least} at least`);
    // Two on a page where they fit; the title and the caution may take one page more.
    expect(pages).toBeLessThanOrEqual(least + 1);
  });

  it('opens a compressed score and gives it back compressed', async () => {
    const bytes = bytesOf('compressed.mxl');
    await drop(page, 'compressed.mxl', bytes);
    await until(page, `document.getElementById('name').textContent.includes('compressed.mxl')`);
    await ready(page);
    await page.uncheck('#layer-carry');
    await ready(page);
    expect(Buffer.compare(await saved('#save'), annotate(bytes).output)).toBe(0);
  });
});
