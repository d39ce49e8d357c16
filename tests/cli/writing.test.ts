import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, test } from 'vitest';
import { handline, scale, spawned, start, workFolder } from './harness.js';

const folder = workFolder();
const read = (name: string) => readFileSync(folder.at(name), 'utf8');

async function marked(): Promise<string> {
  const { code, stdout } = await handline(['mark', '-'], folder.path, scale());
  expect(code).toBe(0);
  expect(stdout.toString()).toContain('<fingering');
  return stdout.toString();
}

describe('a result under a new name', () => {
  test('is the same on a file, in a folder and on standard output; the input is untouched', async () => {
    const result = await marked();
    folder.put('a.musicxml', scale());
    await handline(['mark', 'a.musicxml', '-o', 'out.musicxml'], folder.path);
    await handline(['mark', 'a.musicxml', '--out-dir', 'new/folder'], folder.path);
    const piped = await handline(['mark', 'a.musicxml', '-o', '-', '--quiet'], folder.path);
    expect([read('out.musicxml'), read('new/folder/a.musicxml'), piped.stdout.toString()]).toEqual([
      result,
      result,
      result,
    ]);
    expect(piped.stderr).toBe('');
    expect(read('a.musicxml')).toBe(scale());
    expect(folder.names()).toEqual(['a.musicxml', 'new', 'out.musicxml']);
  });

  test('is not written over a file without --force', async () => {
    folder.put('a.musicxml', scale());
    folder.put('out.musicxml', 'precious');
    const refused = await handline(['mark', 'a.musicxml', '-o', 'out.musicxml'], folder.path);
    expect(refused.code).toBe(3);
    expect(refused.stderr).toBe(
      'handline: out.musicxml: is already there; choose another name or give --force\n',
    );
    expect(read('out.musicxml')).toBe('precious');
    chmodSync(folder.at('out.musicxml'), 0o640);
    expect((await handline(['mark', 'a.musicxml', '-o', 'out.musicxml', '--force'], folder.path)).code).toBe(
      0,
    );
    expect(read('out.musicxml')).toBe(await marked());
    expect(statSync(folder.at('out.musicxml')).mode & 0o777).toBe(0o640);
    expect(folder.names()).toEqual(['a.musicxml', 'out.musicxml']);
  });

  test('replaces the file behind a symbolic link, not the link', async () => {
    folder.put('a.musicxml', scale());
    folder.put('real.musicxml', 'old');
    symlinkSync('real.musicxml', folder.at('link.musicxml'));
    await handline(['mark', 'a.musicxml', '-o', 'link.musicxml', '--force'], folder.path);
    expect(readlinkSync(folder.at('link.musicxml'))).toBe('real.musicxml');
    expect(read('real.musicxml')).toBe(await marked());
  });

  test.each<[string, string, RegExp]>([
    ['a missing folder', 'none/out.musicxml', /there is no folder none; make it/],
    ['a folder', 'sub', /is a folder; name a file, or use --out-dir/],
    ['a file in the place of a folder', 'a.musicxml/out.musicxml', /not a folder/],
    ['a link that leads nowhere', 'dangling.xml', /no such file/],
    ['a device', '/dev/null', /not a regular file; use - for standard output/],
  ])('does not go to %s', async (_, output, message) => {
    folder.put('a.musicxml', scale());
    mkdirSync(folder.at('sub'));
    symlinkSync('nowhere', folder.at('dangling.xml'));
    const { code, stderr } = await handline(['mark', 'a.musicxml', '-o', output, '--force'], folder.path);
    expect(code).toBe(3);
    expect(stderr).toMatch(/^handline: [^\n]+\n$/);
    expect(stderr).toMatch(message);
    expect([folder.names(), folder.names('sub')]).toEqual([['a.musicxml', 'dangling.xml', 'sub'], []]);
  });

  test('keeps the other files going when the folder cannot be made', async () => {
    folder.put('a.musicxml', scale());
    folder.put('file', 'x');
    const { code } = await handline(['mark', 'a.musicxml', '--out-dir', 'file'], folder.path);
    expect(code).toBe(3);
    expect([read('file'), folder.names()]).toEqual(['x', ['a.musicxml', 'file']]);
  });
});

describe('in place', () => {
  test('keeps every earlier state as .bak, .bak2, ..., with access rights and time', async () => {
    folder.put('a.musicxml', scale());
    chmodSync(folder.at('a.musicxml'), 0o604);
    const before = statSync(folder.at('a.musicxml'));
    const first = await handline(['mark', 'a.musicxml', '--in-place'], folder.path);
    expect(first.code).toBe(0);
    expect(first.stdout.toString()).toContain('(the old file is kept as a.musicxml.bak)');
    const once = read('a.musicxml');
    expect([read('a.musicxml.bak'), once]).toEqual([scale(), await marked()]);
    expect(statSync(folder.at('a.musicxml')).mode & 0o777).toBe(0o604);
    expect(statSync(folder.at('a.musicxml.bak')).mtimeMs).toBe(before.mtimeMs);
    await handline(['clear', 'a.musicxml', '--in-place'], folder.path);
    expect([read('a.musicxml'), read('a.musicxml.bak'), read('a.musicxml.bak2')]).toEqual([
      scale(),
      scale(),
      once,
    ]);
    expect(folder.names()).toEqual(['a.musicxml', 'a.musicxml.bak', 'a.musicxml.bak2']);
  });

  test('goes through a symbolic link, with the backup beside the file itself', async () => {
    mkdirSync(folder.at('real'));
    folder.put('real/a.musicxml', scale());
    symlinkSync('real/a.musicxml', folder.at('link.musicxml'));
    expect((await handline(['mark', 'link.musicxml', '--in-place'], folder.path)).code).toBe(0);
    expect(lstatSync(folder.at('link.musicxml')).isSymbolicLink()).toBe(true);
    expect(read('real/a.musicxml')).toBe(await marked());
    expect([folder.names(), folder.names('real')]).toEqual([
      ['link.musicxml', 'real'],
      ['a.musicxml', 'a.musicxml.bak'],
    ]);
  });

  test('leaves another hard link of the file as it was', async () => {
    folder.put('a.musicxml', scale());
    linkSync(folder.at('a.musicxml'), folder.at('twin.musicxml'));
    await handline(['mark', 'a.musicxml', '--in-place'], folder.path);
    expect(read('twin.musicxml')).toBe(scale());
  });

  test('does not touch a write-protected file', async () => {
    folder.put('a.musicxml', scale());
    chmodSync(folder.at('a.musicxml'), 0o444);
    const { code, stderr } = await handline(['mark', 'a.musicxml', '--in-place'], folder.path);
    expect(code).toBe(3);
    expect(stderr).toBe(
      'handline: a.musicxml: is write-protected; remove the protection or write elsewhere\n',
    );
    expect([read('a.musicxml'), folder.names()]).toEqual([scale(), ['a.musicxml']]);
  });
});

test('a pipe under a name is no file to be changed in place', async () => {
  expect(spawnSync('mkfifo', [folder.at('pipe')]).status).toBe(0);
  const writer = spawn('sh', ['-c', 'cat > pipe'], { cwd: folder.path });
  writer.stdin.end(scale());
  const { code, stderr } = await handline(['mark', 'pipe', '--in-place'], folder.path);
  expect({ code, stderr }).toEqual({
    code: 3,
    stderr: 'handline: pipe: is not a regular file; give -o OUT instead\n',
  });
  expect([lstatSync(folder.at('pipe')).isFIFO(), folder.names()]).toEqual([true, ['pipe']]);
});

describe('several runs at once', () => {
  test('into one folder: every result is whole, no temporary file stays', async () => {
    const names = ['a', 'b', 'c'].map((name) => `${name}.musicxml`);
    for (const name of names) folder.put(name, scale());
    const runs = await Promise.all(
      [0, 1, 2].map(() => spawned(['mark', ...names, '--out-dir', 'out', '--force'], folder.path)),
    );
    expect(runs.map((run) => run.code)).toEqual([0, 0, 0]);
    const result = await marked();
    expect(folder.names('out')).toEqual(names);
    for (const name of names) expect(read(`out/${name}`)).toBe(result);
  });

  test('without --force only one of them takes the name', async () => {
    folder.put('a.musicxml', scale());
    const runs = await Promise.all(
      [0, 1, 2].map(() => spawned(['mark', 'a.musicxml', '-o', 'out.musicxml'], folder.path)),
    );
    expect(runs.map((run) => run.code).sort()).toEqual([0, 3, 3]);
    expect([read('out.musicxml'), folder.names()]).toEqual([await marked(), ['a.musicxml', 'out.musicxml']]);
  });

  test('in place: the file and its backups are whole, and the original is among these', async () => {
    folder.put('a.musicxml', scale());
    const runs = await Promise.all(
      [0, 1, 2].map(() => spawned(['mark', 'a.musicxml', '--in-place'], folder.path)),
    );
    for (const run of runs) expect([0, 3]).toContain(run.code);
    const [file, ...backups] = folder.names();
    expect(file).toBe('a.musicxml');
    expect(read('a.musicxml')).toBe(await marked());
    // A run that lost takes its own backup away again, be it the first: the name that stays may be `.bak2`.
    for (const name of backups) expect(name).toMatch(/^a\.musicxml\.bak\d*$/);
    const kept = backups.map(read);
    expect(kept).toContain(scale());
    for (const text of kept) expect([scale(), await marked()]).toContain(text);
  });
});

test.each([
  ['mark', 'a.musicxml'],
  ['mark', 'a.musicxml', '--dry-run', '--out-dir', 'out'],
  ['review', 'a.musicxml'],
  ['drill', '-o', '-'],
  ['completion', 'bash'],
])('nobody reads the result: as ended by SIGPIPE, and not a word: %j %s %s', async (...args) => {
  writeFileSync(folder.at('a.musicxml'), scale({ padding: 400_000 }));
  const { child, done } = start(args.filter(Boolean), folder.path);
  child.stdout.destroy();
  const { code, stderr } = await done;
  expect({ code, stderr }).toEqual({ code: 141, stderr: '' });
});
