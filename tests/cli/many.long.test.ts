import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { annotate } from '@handline/core';
import { expect, test } from 'vitest';
import { scale, spawned, start, workFolder } from './harness.js';
import { manyScores } from './many.js';

const folder = workFolder();
const [BAD, HUGE, UNWRITABLE] = ['20/score.musicxml', '30/score.musicxml', '40/score.musicxml'];

/** Results, without the record of what is done. */
const results = (): string[] =>
  existsSync(folder.at('out'))
    ? readdirSync(folder.at('out'), { recursive: true, encoding: 'utf8' }).filter((name) =>
        name.endsWith('.musicxml'),
      )
    : [];

test('232 scores of one name, a bad, a huge and an unwritable one among them: interrupted and taken up, nothing is lost and nothing done twice', async () => {
  const names = manyScores(folder.at('ed'));
  for (const name of names) chmodSync(folder.at(`ed/${name}`), 0o644);
  folder.put(`ed/${BAD}`, '<html/>');
  folder.put(`ed/${HUGE}`, scale({ notes: 60_000 }));
  mkdirSync(folder.at('out/40'), { recursive: true });
  folder.put(`out/${UNWRITABLE}`, 'precious');

  const args = ['mark', 'ed', '--out-dir', 'out', '--skip-done', '--jobs', '2'];
  const { child, done } = start(args, folder.path);
  while (child.exitCode === null && results().length < 80) await pause(5);
  child.kill('SIGINT');
  const stopped = await done;
  const before = results().filter((name) => name !== UNWRITABLE);
  expect(stopped.code).toBe(130);
  expect(stopped.stderr).toContain(`interrupted: `);
  expect(before.length).toBeLessThan(names.length - 2);

  const { code, stderr } = await spawned([...args, '--report', 'report.jsonl'], folder.path);
  expect(code).toBe(3);
  expect(stderr).toContain(`ed/${BAD}: `);
  expect(stderr).toContain(`out/${UNWRITABLE}: is already there`);
  const lines = readFileSync(folder.at('report.jsonl'), 'utf8').trimEnd().split('\n');
  const told = lines.map((line) => JSON.parse(line) as { input: string; status: string });
  const left = names.filter((name) => !before.includes(name));
  expect(told.map(({ input }) => input).sort()).toEqual(left.map((name) => `ed/${name}`).sort());
  const of = (status: string) =>
    told.filter((one) => one.status === status).map(({ input }) => input.slice('ed/'.length));
  expect([of('done'), of('refused'), of('unwritten')]).toEqual([[], [BAD], [UNWRITABLE]]);
  expect(results().sort()).toEqual(names.filter((name) => name !== BAD).sort());
  expect(readFileSync(folder.at(`out/${UNWRITABLE}`), 'utf8')).toBe('precious');
  for (const name of names) {
    if (name === BAD || name === UNWRITABLE) continue;
    const same = Buffer.from(annotate(readFileSync(folder.at(`ed/${name}`))).output);
    expect(same.equals(readFileSync(folder.at(`out/${name}`))), name).toBe(true);
  }
});
