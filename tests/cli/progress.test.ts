import { Writable } from 'node:stream';
import { expect, test, vi } from 'vitest';
import { Counts, progressOf } from '../../packages/cli/src/output/progress.js';

class Screen extends Writable {
  text = '';
  readonly columns = 100;
  constructor(readonly isTTY: boolean) {
    super();
  }
  override _write(chunk: Buffer, _: string, done: () => void): void {
    this.text += chunk.toString();
    done();
  }
  cursorTo(): void {}
  clearLine(): void {}
}

const streams = (stderr: Screen) => ({ stdin: process.stdin, stdout: new Screen(false), stderr });
const LOUD = { json: false, quiet: false };

test('rate and time left are those of the scores worked on; what was done before took no time', () => {
  const counts = new Counts(110, 0);
  expect(counts.pace(1000)).toEqual({ rate: '-', left: '?' });
  for (let index = 0; index < 10; index += 1) counts.add('done');
  for (let index = 0; index < 20; index += 1) counts.add('written');
  expect(counts.pace(10_000)).toEqual({ rate: '2.0', left: '40 s' });
  expect(counts.pace(100_000)).toEqual({ rate: '0.20', left: '7 min' });
  expect(counts.pace(2_000_000)).toEqual({ rate: '0.010', left: '2.2 h' });
  counts.add('refused');
  counts.add('unwritten');
  expect(counts.text()).toMatch(
    /^30 of 110 scores are done, 1 refused, 1 could not be written; --skip-done /,
  );
});

test('on a terminal a bar, above it what is said; nothing of it is left at the end', async () => {
  vi.useFakeTimers();
  try {
    const screen = new Screen(true);
    const progress = await progressOf(4, LOUD, streams(screen));
    progress.step('written');
    vi.advanceTimersByTime(500);
    expect(screen.text).toMatch(/1 of 4 scores, \d\S* a second, \d+ s left/);
    progress.say('handline: b.xml: is empty');
    vi.advanceTimersByTime(500);
    expect(screen.text).toMatch(/handline: b\.xml: is empty\n/);
    progress.end();
  } finally {
    vi.useRealTimers();
  }
});

test('elsewhere a plain line every half minute, and with --quiet none', async () => {
  vi.useFakeTimers({ toFake: ['Date'] });
  try {
    for (const quiet of [false, true]) {
      const screen = new Screen(false);
      const progress = await progressOf(100, { ...LOUD, quiet }, streams(screen));
      for (let index = 0; index < 62; index += 1) {
        vi.setSystemTime(Date.now() + 1000);
        progress.step('written');
      }
      progress.end();
      const lines = quiet
        ? ''
        : 'handline: 30 of 100 scores, 1.0 a second, 70 s left\nhandline: 60 of 100 scores, 1.0 a second, 40 s left\n';
      expect(screen.text).toBe(lines);
    }
  } finally {
    vi.useRealTimers();
  }
});
