import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Scores by name. */
export type Texts = ReadonlyMap<string, string>;

/** A program that opens scores and saves them anew. */
export interface Program {
  readonly name: string;
  /** Why it cannot be run here; undefined where it can. */
  readonly missing: string | undefined;
  /** What it makes of each score. */
  readonly save: (texts: Texts) => Map<string, string>;
}

/** MuseScore runs without a screen. */
const ENVIRONMENT = { ...process.env, QT_QPA_PLATFORM: 'offscreen' };

function whyMissing(command: string, source: string, version = '--version'): string | undefined {
  try {
    execFileSync(command, [version], { env: ENVIRONMENT, stdio: 'ignore' });
    return undefined;
  } catch {
    return `${command} is not here (${source}): what it shows and keeps is not measured`;
  }
}

function inFolder<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'handline-resave-'));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function convert(
  texts: Texts,
  ending: string,
  run: (jobs: readonly { in: string; out: string }[], folder: string) => void,
): Map<string, string> {
  return inFolder((folder) => {
    const jobs = [...texts].map(([name, text], at) => {
      const job = { in: join(folder, `${at}.musicxml`), out: join(folder, `${at}.saved.${ending}`) };
      writeFileSync(job.in, text);
      return { name, ...job };
    });
    run(jobs, folder);
    return new Map(jobs.map(({ name, out }) => [name, readFileSync(out, 'utf8')]));
  });
}

export const museScore: Program = {
  name: 'MuseScore 3',
  missing: whyMissing('musescore3', 'Debian package musescore3'),
  save: (texts) =>
    convert(texts, 'musicxml', (jobs, folder) => {
      const list = join(folder, 'jobs.json');
      // It refuses a list with anything else in it.
      writeFileSync(list, JSON.stringify(jobs.map((job) => ({ in: job.in, out: job.out }))));
      execFileSync('musescore3', ['-j', list], { env: ENVIRONMENT, stdio: 'ignore' });
    }),
};

/** Why the pages that MuseScore prints cannot be read here; undefined where they can. */
export const unreadablePages =
  museScore.missing ?? whyMissing('pdftotext', 'Debian package poppler-utils', '-v');

const PYTHON = process.env.HANDLINE_PYTHON ?? 'python3';
const MUSIC21 = `
import sys
from music21 import converter
for source, target in zip(sys.argv[1::2], sys.argv[2::2]):
    converter.parse(source, format='musicxml', forceSource=True).write('musicxml', fp=target)
`;

function music21Missing(): string | undefined {
  try {
    execFileSync(PYTHON, ['-c', 'import music21'], { stdio: 'ignore' });
    return undefined;
  } catch {
    return 'music21 is not here (PyPI; HANDLINE_PYTHON names a Python that has it): what it keeps is not measured';
  }
}

export const music21: Program = {
  name: 'music21',
  missing: music21Missing(),
  save: (texts) =>
    convert(texts, 'musicxml', (jobs) => {
      const paths = jobs.flatMap((job) => [job.in, job.out]);
      execFileSync(PYTHON, ['-c', MUSIC21, ...paths], { stdio: 'ignore' });
    }),
};

/** Writes LilyPond's own language; it saves no MusicXML. */
export const lilyPond: Program = {
  name: 'LilyPond',
  missing: whyMissing('musicxml2ly', 'Debian package lilypond'),
  save: (texts) =>
    convert(texts, 'ly', (jobs) => {
      for (const job of jobs) execFileSync('musicxml2ly', ['-o', job.out, job.in], { stdio: 'ignore' });
    }),
};

/** What LilyPond complains of when it engraves a text in its language. */
export function lilyPondErrors(text: string): string[] {
  return inFolder((folder) => {
    writeFileSync(join(folder, 'a.ly'), text);
    const script = `cd '${folder}' && lilypond -s -dno-print-pages a.ly 2>&1 || true`;
    return execFileSync('sh', ['-c', script], { encoding: 'utf8' })
      .split('\n')
      .filter((line) => line.includes('error'));
  });
}
