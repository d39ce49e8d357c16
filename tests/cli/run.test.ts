import { readFileSync } from 'node:fs';
import { Readable, Writable } from 'node:stream';
import { REPORT_VERSION } from '@handline/core';
import { describe, expect, test } from 'vitest';
import { runJobs } from '../../packages/cli/src/commands/run.js';
import { planJobs } from '../../packages/cli/src/files/jobs.js';
import type { Streams } from '../../packages/cli/src/jobs/streams.js';
import type { OutputChoice } from '../../packages/cli/src/options/output-options.js';
import type { Result } from '../../packages/cli/src/outcome.js';
import { workFolder } from './harness.js';

const folder = workFolder();

class Sink extends Writable {
  text = '';
  override _write(chunk: Buffer, _: string, done: () => void): void {
    this.text += chunk.toString();
    done();
  }
}

/** Runs jobs with a stand-in for the library. */
async function run(
  inputs: readonly string[],
  where: Partial<OutputChoice>,
  work: (bytes: Uint8Array) => Result,
  { json = false, input = '', mostBytes = 1e6 } = {},
) {
  const [stdout, stderr] = [new Sink(), new Sink()];
  const streams: Streams = { stdin: Readable.from([Buffer.from(input)]), stdout, stderr };
  const jobs = await planJobs(inputs, { inPlace: false, force: false, ...where }, false);
  const choice = { json, quiet: false };
  const tally = { add: () => undefined, text: () => 'summary\n' };
  const exit = await runJobs({ jobs, work, choice, mostBytes, tally }, streams);
  return { exit, stdout: stdout.text, stderr: stderr.text };
}

const upper = (bytes: Uint8Array): Result => ({
  output: Buffer.from(Buffer.from(bytes).toString().toUpperCase()),
  warnings: [],
});

describe('running jobs', () => {
  test('a defect of the library is one line and code 4; nothing is written, the next file is done', async () => {
    folder.put('a', 'boom');
    folder.put('b', 'fine');
    const work = (bytes: Uint8Array): Result => {
      if (Buffer.from(bytes).toString() === 'boom') throw new RangeError('Maximum call stack\nsize exceeded');
      return upper(bytes);
    };
    const { exit, stderr } = await run([folder.at('a'), folder.at('b')], { outDir: folder.at('out') }, work);
    expect(exit).toBe(4);
    expect(stderr).toBe(
      `handline: ${folder.at('a')}: Handline failed (Maximum call stack size exceeded); this is a defect, please report it\n`,
    );
    expect(folder.names('out')).toEqual(['b']);
  });

  test('score to standard output: summary on standard error', async () => {
    expect(await run(['-'], {}, upper, { input: 'abc' })).toEqual({
      exit: 0,
      stdout: 'ABC',
      stderr: 'summary\n',
    });
  });

  test('score to standard output with --json: standard error is JSON and nothing else, errors included', async () => {
    const fine = await run(['-'], {}, upper, { input: 'abc', json: true });
    expect(JSON.parse(fine.stderr)).toEqual({
      version: REPORT_VERSION,
      files: [{ input: 'standard input', output: '-', status: 'written', changed: true, warnings: [] }],
    });
    const refused = await run(['-'], {}, upper, { input: 'abc', json: true, mostBytes: 2 });
    expect(refused).toMatchObject({ exit: 1, stdout: '' });
    expect(JSON.parse(refused.stderr).files[0]).toEqual({
      input: 'standard input',
      status: 'refused',
      error: { message: 'standard input: is larger than 2 bytes; raise --max-bytes if you trust it' },
    });
  });

  test('in place, a result equal to the file leaves the file alone', async () => {
    folder.put('a', 'ABC');
    const { exit } = await run([folder.at('a')], { inPlace: true }, upper);
    expect([exit, folder.names()]).toEqual([0, ['a']]);
  });

  test('in place, a file that changes while it is worked on is left as it is then', async () => {
    folder.put('a', 'abc');
    const work = (bytes: Uint8Array): Result => {
      folder.put('a', 'edited meanwhile');
      return upper(bytes);
    };
    const { exit, stderr } = await run([folder.at('a')], { inPlace: true }, work);
    expect(exit).toBe(3);
    expect(stderr).toContain('was changed by another program in the meantime; run again');
    expect([readFileSync(folder.at('a'), 'utf8'), folder.names()]).toEqual(['edited meanwhile', ['a']]);
  });
});
