import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable, Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach } from 'vitest';
import { run } from '../../packages/cli/src/program.js';

export const MAIN = fileURLToPath(new URL('../../packages/cli/dist/command/main.js', import.meta.url));
export const DEMO = fileURLToPath(new URL('../../fixtures/demo/kelp-street-tunes.musicxml', import.meta.url));

export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: Buffer;
  readonly stderr: string;
}

/** Starts the built command; `done` resolves when it has ended. */
export function start(args: readonly string[], cwd: string, input: string | Uint8Array = '') {
  const child = spawn(process.execPath, [MAIN, ...args], { cwd, stdio: 'pipe' });
  const out: Buffer[] = [];
  const err: Buffer[] = [];
  child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
  child.stderr.on('data', (chunk: Buffer) => err.push(chunk));
  child.stdin.on('error', () => undefined);
  child.stdin.end(input);
  const done = new Promise<Ended>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) =>
      resolve({ code, signal, stdout: Buffer.concat(out), stderr: Buffer.concat(err).toString('utf8') }),
    );
  });
  return { child, done };
}

/** One run of the built command in a process of its own. */
export function spawned(args: readonly string[], cwd: string, input?: string | Uint8Array): Promise<Ended> {
  return start(args, cwd, input).done;
}

class Sink extends Writable {
  readonly chunks: Buffer[] = [];
  override _write(chunk: Buffer, _: string, done: () => void): void {
    this.chunks.push(chunk);
    done();
  }
  get bytes(): Buffer {
    return Buffer.concat(this.chunks);
  }
}

/** Worker threads load the build; run from its sources, the command stays in this thread. */
function inOneThread(args: readonly string[]): readonly string[] {
  const [command = '', ...rest] = args;
  const jobs = ['mark', 'clear'].includes(command) && !args.includes('--jobs') ? ['--jobs', '1'] : [];
  return args.length === 0 ? [] : [command, ...jobs, ...rest];
}

let last: Promise<unknown> = Promise.resolve();

/** The same run in this process, one after the other: a process takes longer to start than most scores to be marked. */
export function handline(
  args: readonly string[],
  cwd: string,
  input: string | Uint8Array = '',
): Promise<Ended> {
  const next = last.then(async (): Promise<Ended> => {
    const [stdout, stderr, before] = [new Sink(), new Sink(), process.cwd()];
    process.chdir(cwd);
    try {
      const code = await run(inOneThread(args), {
        stdin: Readable.from([Buffer.from(input)]),
        stdout,
        stderr,
      });
      return { code, signal: null, stdout: stdout.bytes, stderr: stderr.bytes.toString('utf8') };
    } finally {
      process.chdir(before);
    }
  });
  last = next.catch(() => undefined);
  return next;
}

/** A fresh folder for each test of the file, removed afterwards. */
export function workFolder() {
  const place = { path: '' };
  beforeEach(() => {
    place.path = mkdtempSync(join(tmpdir(), 'handline-cli-'));
  });
  afterEach(() => rmSync(place.path, { recursive: true, force: true }));
  return {
    at: (name: string) => join(place.path, name),
    get path() {
      return place.path;
    },
    put: (name: string, content: string | Uint8Array) => {
      const path = join(place.path, name);
      writeFileSync(path, content);
      return path;
    },
    names: (folder = '.') => readdirSync(join(place.path, folder)).sort(),
    has: (name: string) => existsSync(join(place.path, name)),
  };
}

const STEPS = ['C', 'D', 'E', 'F', 'G', 'A', 'B', 'C', 'B', 'A', 'G', 'F', 'E', 'D'];

/** A small valid score: a C major scale for the right hand on one staff, its text padded with a comment. */
export function scale({ part = 'Piano', sound = 'keyboard.piano', notes = 15, padding = 0 } = {}): string {
  const body = Array.from({ length: notes }, (_, index) => {
    const step = STEPS[index % STEPS.length];
    const octave = index % STEPS.length === 7 ? 5 : 4;
    return `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>1</duration><voice>1</voice><type>eighth</type></note>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
<part-list><score-part id="P1"><part-name>${part}</part-name><score-instrument id="I1"><instrument-name>${part}</instrument-name><instrument-sound>${sound}</instrument-sound></score-instrument></score-part></part-list>
<!--${'-.'.repeat(padding / 2)}-->
<part id="P1"><measure number="1"><attributes><divisions>2</divisions><clef><sign>G</sign><line>2</line></clef></attributes>
${body.join('\n')}
</measure></part>
</score-partwise>
`;
}
