import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, type TestContext, test } from 'vitest';
import { LONG } from '../rounds.js';
import { handline, MAIN, scale, start, workFolder } from './harness.js';

const folder = workFolder();
/** Large enough that the write takes many milliseconds, so that it can be met half-way. */
const big = scale({ padding: 24_000_000 });

/** How often a run must be met while it writes. */
const MET = LONG ? 5 : 1;

const temporary = (names: readonly string[]) => names.filter((name) => name.startsWith('.handline-'));

const SIGNALS = ['SIGTERM', 'SIGINT', 'SIGHUP', 'SIGKILL'] as const;
/** How the system knows the signals: POSIX.1-2017, kill. */
const NUMBERS: Partial<Record<NodeJS.Signals, number>> = { SIGHUP: 1, SIGINT: 2, SIGTERM: 15 };

/**
 * Runs the command and sends the signal as soon as its temporary file is seen.
 *
 * @returns whether it ended by the signal
 */
async function interruptWhileWriting(
  args: readonly string[],
  signal: NodeJS.Signals,
  where = folder.path,
): Promise<boolean> {
  const { child, done } = start(args, folder.path);
  let met = false;
  while (child.exitCode === null && child.signalCode === null) {
    if (existsSync(where) && temporary(readdirSync(where)).length > 0) {
      met = child.kill(signal);
      break;
    }
    await pause(1);
  }
  const { code, signal: by } = await done;
  // It may have been through before the signal reached it.
  if (!met || code === 0) return false;
  // A shell tells a signal as 128 + its number, which nothing can do for SIGKILL but the system itself.
  expect([code, by]).toEqual(signal === 'SIGKILL' ? [null, 'SIGKILL'] : [128 + NUMBERS[signal]!, null]);
  return true;
}

describe('ended by a signal while it writes', () => {
  test.each(LONG ? SIGNALS : (['SIGTERM', 'SIGKILL'] as const))(
    '%s: old or new, never half',
    async (signal) => {
      let met = 0;
      let result: string | undefined;
      for (let round = 0; round < 2 * MET + 2 && met < MET; round += 1) {
        folder.put('a.musicxml', big);
        folder.put('out.musicxml', 'old');
        if (await interruptWhileWriting(['mark', 'a.musicxml', '-o', 'out.musicxml', '--force'], signal))
          met += 1;
        expect(readFileSync(folder.at('a.musicxml'), 'utf8') === big).toBe(true);
        const out = readFileSync(folder.at('out.musicxml'), 'utf8');
        if (out !== 'old') {
          result ??= (await handline(['mark', 'a.musicxml', '--quiet'], folder.path)).stdout.toString();
          expect(out === result).toBe(true);
        }
        if (signal !== 'SIGKILL') expect(temporary(folder.names())).toEqual([]);
      }
      expect(met).toBe(MET);
    },
  );

  test('in place: the file is the old or the new one, and the old one is somewhere', async () => {
    let met = false;
    for (let round = 0; round < 4 && !met; round += 1) {
      for (const name of folder.names()) rmSync(folder.at(name));
      folder.put('a.musicxml', big);
      met = await interruptWhileWriting(['mark', 'a.musicxml', '--in-place'], 'SIGKILL');
    }
    expect(met).toBe(true);
    const now = readFileSync(folder.at('a.musicxml'), 'utf8');
    const old = folder.has('a.musicxml.bak') ? readFileSync(folder.at('a.musicxml.bak'), 'utf8') : now;
    expect(old === big).toBe(true);
    expect(now.endsWith('</score-partwise>\n')).toBe(true);
  });
});

test('ended among several files: each result is whole or not there, the inputs are as they were', async () => {
  const names = ['a', 'b', 'c'].map((name) => `${name}.musicxml`);
  const score = scale({ padding: 8_000_000 });
  let met = false;
  for (let round = 0; round < 4 && !met; round += 1) {
    rmSync(folder.at('out'), { recursive: true, force: true });
    for (const name of names) folder.put(name, score);
    met = await interruptWhileWriting(['mark', ...names, '--out-dir', 'out'], 'SIGTERM', folder.at('out'));
  }
  expect(met).toBe(true);
  const result = (await handline(['mark', 'a.musicxml', '--quiet'], folder.path)).stdout.toString();
  const written = folder.names('out').filter((name) => name !== '.handline-done');
  expect(written.length).toBeLessThan(names.length);
  for (const name of written) expect(readFileSync(folder.at(`out/${name}`), 'utf8') === result).toBe(true);
  for (const name of names) expect(readFileSync(folder.at(name), 'utf8') === score).toBe(true);
});

/** Mounts a disk of a megabyte in the folder for as long as the work takes. */
async function onSmallDisk(context: TestContext, work: (disk: string) => Promise<void>): Promise<void> {
  const disk = folder.at('disk');
  mkdirSync(disk);
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', disk]);
  if (mounted.status !== 0) context.skip('a small disk cannot be mounted here');
  try {
    await work(disk);
  } finally {
    spawnSync('umount', [disk]);
  }
}

describe('no room', () => {
  test('beyond the largest file that the system allows, nothing is changed', () => {
    folder.put('a.musicxml', scale({ padding: 4_000_000 }));
    folder.put('out.musicxml', 'old');
    const command = `ulimit -f 1000; exec "$0" "$1" mark a.musicxml -o out.musicxml --force`;
    const { status, stderr } = spawnSync('bash', ['-c', command, process.execPath, MAIN], {
      cwd: folder.path,
    });
    expect(stderr.toString()).toBe(
      'handline: out.musicxml: the file would be larger than the system allows; raise the limit or write elsewhere\n',
    );
    expect(status).toBe(3);
    expect([readFileSync(folder.at('out.musicxml'), 'utf8'), folder.names()]).toEqual([
      'old',
      ['a.musicxml', 'out.musicxml'],
    ]);
  });

  test('on a full disk a result is not begun: what was there is whole, and nothing is left behind', async (context) => {
    await onSmallDisk(context, async (disk) => {
      folder.put('a.musicxml', scale({ padding: 1_400_000 }));
      folder.put('disk/out.musicxml', 'old');
      for (const [where, name] of [
        [['-o', 'disk/out.musicxml', '--force'], 'disk/out.musicxml'],
        [['-o', 'disk/new.musicxml'], 'disk/new.musicxml'],
        [['--out-dir', 'disk'], 'disk/a.musicxml'],
      ] as const) {
        const { code, stderr } = await handline(['mark', 'a.musicxml', ...where], folder.path);
        expect({ code, stderr }).toEqual({
          code: 3,
          stderr: `handline: ${name}: the disk is full; free some space and run again\n`,
        });
        expect(readdirSync(disk)).toEqual(['out.musicxml']);
        expect(readFileSync(`${disk}/out.musicxml`, 'utf8')).toBe('old');
      }
    });
  });

  test.skipIf(!existsSync('/dev/full'))(
    'a report that cannot be written ends the run in one line, and another run goes on',
    async () => {
      mkdirSync(folder.at('ed'));
      for (const name of ['a', 'b', 'c']) folder.put(`ed/${name}.musicxml`, scale());
      const mark = (report: string) =>
        handline(
          ['mark', 'ed', '--out-dir', 'out', '--skip-done', '--jobs', '1', '--report', report],
          folder.path,
        );
      expect(await mark('/dev/full')).toMatchObject({
        code: 3,
        stderr:
          'handline: --report /dev/full: the disk is full; free some space and run again; this run ends here, and its last scores are not in the report\n',
      });
      expect((await mark('r.jsonl')).code).toBe(0);
      const told = readFileSync(folder.at('r.jsonl'), 'utf8').trim().split('\n');
      expect(told.map((line) => JSON.parse(line).input)).toEqual(['ed/b.musicxml', 'ed/c.musicxml']);
      expect(readdirSync(folder.at('out')).sort()).toEqual([
        '.handline-done',
        'a.musicxml',
        'b.musicxml',
        'c.musicxml',
      ]);
    },
  );

  test('on a full disk the file in place is whole and nothing is left behind', async (context) => {
    await onSmallDisk(context, async (disk) => {
      const score = scale({ padding: 700_000 });
      writeFileSync(`${disk}/a.musicxml`, score);
      const { code, stderr } = await handline(['mark', 'a.musicxml', '--in-place'], disk);
      expect({ code, stderr }).toEqual({
        code: 3,
        stderr: 'handline: a.musicxml: the disk is full; free some space and run again\n',
      });
      expect(readFileSync(`${disk}/a.musicxml`, 'utf8') === score).toBe(true);
      expect(readdirSync(disk)).toEqual(['a.musicxml']);
      const read = spawnSync('mount', ['-o', 'remount,ro', disk]);
      if (read.status === 0) {
        const refused = await handline(['mark', 'a.musicxml', '--in-place'], disk);
        expect(refused.stderr).toBe('handline: a.musicxml: the disk is read-only; write elsewhere\n');
        expect(existsSync(`${disk}/a.musicxml.bak`)).toBe(false);
      }
    });
  });
});
