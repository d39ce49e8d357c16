import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { LANGUAGE_CODES, type Language } from '#core/options/options.js';
import { unreadablePages } from '../resave/programs.js';
import { editions, FIXTURES } from '../scores.js';
import { drawnPages } from './drawn.js';
import { type Box, overlap } from './shapes.js';

/** Of a page of verovio within its margins, in its units. */
const PAGE = { right: 20_500, bottom: 29_200 };
const SLACK = 20;

const TUNES = 3;
const PATHS = [
  ...['demo/kelp-street-tunes.musicxml', 'page/low-tide.musicxml', 'page/long-swell.musicxml'].map(
    (name) => `${FIXTURES}${name}`,
  ),
  ...editions().filter((_, at) => at % 8 === 4),
];

/** Our own tunes in every language, the others in English. */
const allMarked = (): Marked[] =>
  PATHS.flatMap((path, at) =>
    (at < TUNES ? LANGUAGE_CODES : (['en'] as const)).map((language) => marked(path, language)),
  );

interface Marked {
  readonly path: string;
  readonly output: string;
  /** From the top down. */
  readonly lines: readonly string[];
}

function marked(path: string, language: Language = 'en'): Marked {
  const { output } = annotate(readFileSync(path, 'utf8'), { legend: true, language });
  const lines = [...output.matchAll(/<\?handline legend (\S*?)\?>/g)].map(([, text]) =>
    decodeURIComponent(text!),
  );
  return { path, output, lines };
}

/** Each line once, one under the other; on the page, and on nothing that is printed there. */
function faultsOf(lines: readonly string[], boxes: readonly Box[], page: typeof PAGE): string[] {
  const faults: string[] = [];
  const left = [...boxes].sort((a, b) => a.top - b.top);
  // Cues in the music have the words of some lines, too: what is meant stands under the line before.
  let above = Number.NEGATIVE_INFINITY;
  const own = lines.map((line) => {
    const at = left.findIndex(({ text, top }) => text === line.trim() && top > above);
    if (at < 0) return undefined;
    const [box] = left.splice(at, 1);
    above = box!.top;
    return box;
  });
  for (const [at, box] of own.entries()) {
    const line = lines[at]!;
    if (box === undefined) {
      faults.push(`missing: ${line}`);
      continue;
    }
    if (box.left < 0 || box.right > page.right || box.bottom > page.bottom)
      faults.push(`off the page by ${Math.round(box.right - page.right)}: ${line}`);
    for (const other of boxes)
      if (!lines.some((one) => one.trim() === other.text) && overlap(inset(box), other))
        faults.push(`on ${other.text}: ${line}`);
    for (const other of own)
      if (other && other !== box && overlap(inset(box), inset(other)))
        faults.push(`on ${other.text}: ${line}`);
  }
  return faults;
}

function inset(box: Box): Box {
  return {
    ...box,
    left: box.left + SLACK,
    right: box.right - SLACK,
    top: box.top + SLACK,
    bottom: box.bottom - SLACK,
  };
}

/** Hundredths of a point, so that the slack means about the same. */
const POINT = 100;
/** A4, on which MuseScore prints. */
const PDF_PAGE = { right: 595 * POINT, bottom: 842 * POINT };

/** The words of the last page of a PDF with letters or digits, each line of the legend as one box. */
function wordsOf(pdf: string, lines: readonly string[]): Box[] {
  const html = execFileSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8' });
  const page = html.slice(html.lastIndexOf('<page'));
  const found = page.matchAll(/<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)<\/word>/g);
  const words = Array.from(
    found,
    ([, left, top, right, bottom, text]): Box => ({
      kind: 'word',
      ours: false,
      system: 0,
      element: 0,
      text: text!.replaceAll('&apos;', "'").replaceAll('ﬁ', 'fi').replaceAll('ﬂ', 'fl'),
      left: Number(left) * POINT,
      right: Number(right) * POINT,
      // The font's whole height, which neighbours in a block share.
      top: (Number(top) + 1) * POINT,
      bottom: (Number(bottom) - 1) * POINT,
    }),
  ).filter(({ text }) => /[\p{L}\p{N}–]/u.test(text));
  const used = new Set<Box>();
  const whole: Box[] = [];
  let above = Number.NEGATIVE_INFINITY;
  for (const line of lines) {
    const own = runOf(
      line.trim().split(' '),
      words.filter((one) => !used.has(one) && one.top > above),
    );
    if (own === undefined) continue;
    above = own[0]!.top;
    for (const one of own) used.add(one);
    whole.push({ ...own[0]!, text: line.trim(), right: own.at(-1)!.right });
  }
  return [...words.filter((one) => !used.has(one)), ...whole];
}

/** The words of a line, each right behind the one before. */
function runOf(parts: readonly string[], words: readonly Box[]): Box[] | undefined {
  for (const first of words.filter(({ text }) => text === parts[0])) {
    const run = [first];
    for (const part of parts.slice(1)) {
      const { right, top } = run.at(-1)!;
      const next = words.find(
        (one) =>
          one.text === part && Math.abs(one.top - top) < POINT && Math.abs(one.left - right) < 5 * POINT,
      );
      if (next === undefined) break;
      run.push(next);
    }
    if (run.length === parts.length) return run;
  }
  return undefined;
}

describe('the legend stands under the last system, whole and on nothing', () => {
  it('in verovio', () => {
    const faults: string[] = [];
    const all = allMarked();
    for (const { path, output, lines } of all) {
      expect(lines.length).toBeGreaterThan(4);
      const boxes = drawnPages(output).at(-1)!.boxes;
      for (const fault of faultsOf(lines, boxes, PAGE)) faults.push(`${basename(path)}: ${fault}`);
    }
    console.log(`${all.length} scores in verovio, ${faults.length} faults\n${faults.join('\n')}`);
    expect(faults).toEqual([]);
  });

  it.skipIf(unreadablePages !== undefined)('in MuseScore 3', () => {
    const folder = mkdtempSync(join(tmpdir(), 'handline-legend-'));
    try {
      const all = allMarked();
      const jobs = all.map(({ output }, at) => {
        const job = { in: join(folder, `${at}.musicxml`), out: join(folder, `${at}.pdf`) };
        writeFileSync(job.in, output);
        return job;
      });
      writeFileSync(join(folder, 'jobs.json'), JSON.stringify(jobs));
      const env = { ...process.env, QT_QPA_PLATFORM: 'offscreen' };
      execFileSync('musescore3', ['-j', join(folder, 'jobs.json')], { env, stdio: 'ignore' });
      const faults = all.flatMap(({ path, lines }, at) =>
        faultsOf(lines, wordsOf(jobs[at]!.out, lines), PDF_PAGE).map(
          (fault) => `${basename(path)}: ${fault}`,
        ),
      );
      console.log(`${all.length} scores in MuseScore 3, ${faults.length} faults\n${faults.join('\n')}`);
      expect(faults).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

if (unreadablePages !== undefined) console.log(unreadablePages);
