import { spawnSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { editionIn, NAMES } from './edition.js';
import { MAIN, workFolder } from './harness.js';

const folder = workFolder();
const { edition, below } = editionIn(folder);

describe('the guide to whole editions', () => {
  const guide = readFileSync(new URL('../../packages/cli/docs/editions.md', import.meta.url), 'utf8');
  const scripts = [...guide.matchAll(/```sh\n(.*?)```/gs)].map((match) => match[1] ?? '');
  const script = (sign: string) =>
    scripts
      .map((text) => text.replaceAll('handline mark', '"$0" "$1" mark'))
      .find((text) => text.includes(sign))!
      .replace(/\bedition\b/g, 'ed')
      .replace(/\bmarked\b/g, 'out');

  function run(text: string, env: Readonly<Record<string, string>> = {}): void {
    const options = { cwd: folder.path, encoding: 'utf8', env: { ...process.env, ...env } } as const;
    const { status, stderr } = spawnSync('bash', ['-c', text, process.execPath, MAIN], options);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  }

  const visible = NAMES.filter((name) => name.endsWith('.musicxml')).concat('.hidden/tune.musicxml');

  test('GNU parallel does the parts of a list, and what is done is passed over', (context) => {
    if (spawnSync('parallel', ['--version']).status !== 0) context.skip('GNU parallel is not installed here');
    edition();
    const command = script('-N 500 "$0"').replace('-N 500', '-N 2');
    run(command);
    expect(below('out')).toEqual([...visible].sort());
    const times = () => visible.map((name) => statSync(folder.at(`out/${name}`)).mtimeMs);
    const before = times();
    run(command);
    expect(times()).toEqual(before);
  });

  test('the tasks of a Slurm array share a list among them', () => {
    edition();
    folder.put('scores.txt', visible.map((name) => `ed/${name}\n`).join(''));
    for (const task of ['0', '1']) {
      run(script('SLURM'), {
        SLURM_ARRAY_TASK_ID: task,
        SLURM_ARRAY_TASK_COUNT: '2',
        SLURM_CPUS_PER_TASK: '1',
        SLURM_JOB_ID: task,
      });
    }
    expect(below('out')).toEqual([...visible].sort());
  });
});
