import { utimesSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { editionIn, NAMES } from './edition.js';
import { scale, spawned, start, workFolder } from './harness.js';

const folder = workFolder();
const { edition, below, read, lines, mark } = editionIn(folder);

describe('--skip-done', () => {
  const again = (...more: string[]) => mark('ed', '--out-dir', 'out', '--skip-done', '--json', ...more);
  const statuses = (run: { stdout: Buffer }): Record<string, string> =>
    Object.fromEntries(
      JSON.parse(run.stdout.toString()).files.map((file: { input: string; status: string }) => [
        file.input.slice(3),
        file.status,
      ]),
    );
  const all = (status: string) => Object.fromEntries([...NAMES].sort().map((name) => [name, status]));

  test('passes over what is done; a score, options or a result that changed are told apart', async () => {
    edition();
    expect(statuses(await again())).toEqual(all('written'));
    expect(statuses(await again())).toEqual(all('done'));
    folder.put(`ed/${NAMES[0]}`, scale({ notes: 20 }));
    utimesSync(folder.at(`ed/${NAMES[2]}`), 1, 1);
    expect(statuses(await again())).toEqual({
      ...all('done'),
      [NAMES[0]!]: 'written',
      [NAMES[2]!]: 'written',
    });
    expect(statuses(await again('--digits', 'sparse'))).toEqual(all('written'));
    folder.put(`out/${NAMES[1]}`, 'edited by hand');
    const edited = await again('--digits', 'sparse');
    expect([edited.code, statuses(edited)]).toEqual([3, { ...all('done'), [NAMES[1]!]: 'unwritten' }]);
    expect(edited.stderr).toContain(`out/${NAMES[1]}: was changed since Handline wrote it and is left alone`);
    expect(edited.stderr).not.toContain('--force');
    expect(read(`out/${NAMES[1]}`)).toBe('edited by hand');
  });

  test('a run for which nothing is left says that, and sums up nothing', async () => {
    edition();
    await mark('ed', '--out-dir', 'out', '--skip-done');
    const { stdout } = await mark('ed', '--out-dir', 'out', '--skip-done');
    const count = NAMES.length;
    expect(stdout.toString()).toBe(`${count} of ${count} scores were done already\n`);
  });

  test('goes on in the file of --report, which tells of every score once', async () => {
    edition();
    const statusesOf = () => lines('r.jsonl').map(({ input, status }) => `${input} ${status}`);
    const reported = ['ed', '--out-dir', 'out', '--skip-done', '--report', 'r.jsonl'];
    folder.put(`ed/${NAMES[1]}`, '<html/>');
    expect((await mark(...reported)).code).toBe(1);
    expect(statusesOf()).toContain(`ed/${NAMES[1]} refused`);
    const before = statusesOf();
    folder.put(`ed/${NAMES[1]}`, read(`ed/${NAMES[0]}`));
    expect((await mark(...reported)).code).toBe(0);
    expect((await mark(...reported)).code).toBe(0);
    expect(statusesOf()).toEqual([...before, `ed/${NAMES[1]} written`]);
  });

  test('goes on after a run that was interrupted: nothing is lost and nothing done twice', async () => {
    const names = Array.from({ length: 16 }, (_, index) => `${index}/tune.musicxml`);
    edition(names, scale({ notes: 150 }));
    const { child, done } = start(['mark', 'ed', '--out-dir', 'out', '--jobs', '2'], folder.path);
    while (child.exitCode === null && !(folder.has('out') && below('out').length >= 3)) await pause(2);
    child.kill('SIGINT');
    const { code, stderr } = await done;
    const before = below('out');
    expect(code).toBe(130);
    expect(stderr).toMatch(/^handline: interrupted: \d+ of 16 scores are done; --skip-done [^\n]*\n$/);
    expect(before.length).toBeLessThan(names.length);
    const rest = await spawned(
      ['mark', 'ed', '--out-dir', 'out', '--skip-done', '--jobs', '2', '--json'],
      folder.path,
    );
    expect({ code: rest.code, stderr: rest.stderr }).toEqual({ code: 0, stderr: '' });
    const found = statuses(rest);
    expect(Object.keys(found)).toEqual([...names].sort());
    expect(Object.keys(found).filter((name) => found[name] === 'done')).toEqual(before);
    expect(below('out')).toEqual([...names].sort());
    for (const name of names) expect(read(`out/${name}`)).toBe(read('out/0/tune.musicxml'));
  });
});

test('a run that is interrupted ends with a line in --report for every result that is there', async () => {
  edition(['0.musicxml', '1.musicxml', '2.musicxml'], scale({ notes: 2000 }));
  const run = start(['mark', 'ed', '--out-dir', 'out', '--report', 'r.jsonl', '--jobs', '1'], folder.path);
  while (run.child.exitCode === null && !folder.has('out/0.musicxml')) await pause(1);
  run.child.kill('SIGINT');
  expect((await run.done).code).toBe(130);
  expect(lines('r.jsonl').map(({ output, status }) => `${output} ${status}`)).toEqual(
    below('out').map((name) => `out/${name} written`),
  );
});
