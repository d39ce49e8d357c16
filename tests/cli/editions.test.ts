import { mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { attributes, note, onePart } from '../musicxml/read-source.js';
import { editionIn, NAMES } from './edition.js';
import { handline, scale, spawned, workFolder } from './harness.js';

const folder = workFolder();
const { edition, below, read, lines, mark } = editionIn(folder);

describe('inputs', () => {
  test.each<[string, string[], readonly string[]]>([
    ['a folder and its subfolders', ['ed'], NAMES],
    ['several folders, below the one that they share', ['ed/one', 'ed/three'], NAMES],
    ['files of equal names', ['ed/one/tune.musicxml', 'ed/three/tune.musicxml'], [NAMES[0]!, NAMES[2]!]],
    ['a pattern', ['ed/**/*.xml'], [NAMES[1]!]],
    ['a folder and a file of it', ['ed', 'ed/one/tune.musicxml'], NAMES],
    ['a list', ['@list.txt'], [NAMES[0]!, NAMES[2]!]],
    ['a list, mirrored below a folder', ['@one.txt', '--root', 'ed'], [NAMES[0]!]],
  ])('%s', async (_, inputs, results) => {
    edition();
    folder.put('list.txt', `ed/${NAMES[0]}\r\n\r\ned/three\n`);
    folder.put('one.txt', `ed/${NAMES[0]}\0`);
    const { code, stderr } = await mark(...inputs, '--out-dir', 'out');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(below('out')).toEqual([...results].sort());
    expect(readdirSync(folder.at('out'))).not.toContain('.handline-done');
  });

  test('a list on standard input; results within the folder are no inputs of the next run', async () => {
    edition();
    const run = await handline(['mark', '@-', '--out-dir', 'ed/marked'], folder.path, `ed/${NAMES[0]}\n`);
    expect([run.code, below('ed/marked')]).toEqual([0, ['tune.musicxml']]);
    const plan = await mark('ed', '--out-dir', 'ed/marked', '--dry-run');
    expect(plan.stdout.toString().split('\n')).toEqual([
      ...[...NAMES].sort().map((name) => `ed/${name} -> ed/marked/${name}`),
      '',
    ]);
    expect(below('ed/marked')).toEqual(['tune.musicxml']);
  });

  test.skipIf(process.platform !== 'linux')('a name that is not in UTF-8 is told', async () => {
    edition();
    writeFileSync(
      Buffer.concat([Buffer.from(folder.at('ed/b')), Buffer.from([0xe4, 0x2e, 0x78, 0x6d, 0x6c])]),
      scale(),
    );
    const { code, stderr } = await mark('ed', '--out-dir', 'out');
    expect({ code, stderr }).toEqual({
      code: 1,
      stderr: 'handline: ed/b\ufffd.xml: its name is not in UTF-8; rename it\n',
    });
    expect(below('out')).toEqual([...NAMES].sort());
  });

  test('.handlineignore names what is passed over, links in a folder are not followed', async () => {
    edition();
    folder.put('ed/.handlineignore', '# drafts\none/*\n!one/two\n');
    symlinkSync('three', folder.at('ed/way'));
    symlinkSync('tune.musicxml', folder.at('ed/three/again.musicxml'));
    const { code } = await mark('ed', '--out-dir', 'out');
    expect([code, below('out')]).toEqual([0, ['one/two/tune.xml', 'three/tune.musicxml']]);
  });

  test('.handlineignore in a subfolder holds there, before those above it, unless they name the subfolder', async () => {
    edition(['a/one.xml', 'a/two.xml', 'b/one.xml', 'b/two.xml', 'drafts/one.xml', 'drafts/two.xml']);
    folder.put('ed/.handlineignore', 'two.xml\ndrafts/\n');
    folder.put('ed/a/.handlineignore', 'one.xml\n!two.xml\n');
    folder.put('ed/drafts/.handlineignore', '!one.xml\n!two.xml\n');
    const { code } = await mark('ed', '--out-dir', 'out');
    expect([code, below('out')]).toEqual([0, ['a/two.xml', 'b/one.xml']]);
  });

  test.each<[string[], RegExp]>([
    [['ed', '-o', 'out.musicxml'], /several scores need --out-dir/],
    [['ed/**/*.mxl', '--out-dir', 'out'], /no file matches ed/],
    [['@none.txt', '--out-dir', 'out'], /the list none\.txt: there is no such file/],
    [['ed', '--skip-done', '--in-place'], /--skip-done goes with --out-dir/],
    [['ed/one/tune.musicxml', '-o', 'x.pdf'], /x\.pdf: the result is MusicXML/],
    [['ed/one/tune.musicxml', '-o', '-', '--check'], /--check has no file to compare with/],
  ])('%j is refused', async (args, message) => {
    edition();
    const { code, stderr } = await mark(...args);
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
    expect(below('.').filter((name) => !name.startsWith('ed/'))).toEqual([]);
  });
});

test('worker threads give what one thread gives: reports in order, a bad, an unwritable and a compressed score', async () => {
  edition(['a/tune.musicxml', 'b/tune.musicxml', 'c/tune.musicxml', 'd/tune.musicxml']);
  folder.put('ed/b/tune.musicxml', '<html/>');
  for (const out of ['one', 'two']) {
    mkdirSync(folder.at(`${out}/c`), { recursive: true });
    folder.put(`${out}/c/tune.musicxml`, 'precious');
  }
  const one = await mark('ed', '--out-dir', 'one', '--json', '--jobs', '1', '--report', 'one.jsonl');
  const two = await spawned(
    ['mark', 'ed', '--out-dir', 'two', '--json', '--jobs', '2', '--report', 'two.jsonl'],
    folder.path,
  );
  expect([one.code, two.code]).toEqual([3, 3]);
  expect(two.stdout.toString().replaceAll('"two/', '"one/').replaceAll('two/', 'one/')).toBe(
    one.stdout.toString(),
  );
  const { files } = JSON.parse(one.stdout.toString());
  expect(files.map(({ status }: { status: string }) => status)).toEqual([
    'written',
    'refused',
    'unwritten',
    'written',
  ]);
  expect(
    lines('two.jsonl')
      .map(({ input }) => input)
      .sort(),
  ).toEqual(files.map(({ input }: { input: string }) => input));
  expect([below('one'), read('one/c/tune.musicxml')]).toEqual([below('two'), 'precious']);
  expect(read('two/a/tune.musicxml')).toBe(read('one/a/tune.musicxml'));
  const taken = await mark('ed', '--out-dir', 'three', '--report', 'ed/a/tune.musicxml', '--force');
  expect([taken.code, read('ed/a/tune.musicxml')]).toEqual([2, scale()]);
});

test('a name that does not fit the content is refused before the work', async () => {
  const container = '<container><rootfiles><rootfile full-path="s.xml"/></rootfiles></container>';
  folder.put('a.mxl', zipSync({ 'META-INF/container.xml': strToU8(container), 's.xml': strToU8(scale()) }));
  folder.put('b.musicxml', scale());
  for (const [input, output, advice] of [
    ['a.mxl', 'out.musicxml', /^handline: a\.mxl: the score is compressed, [^\n]*name it \.mxl\n$/],
    [
      'b.musicxml',
      'out.mxl',
      /^handline: b\.musicxml: the score is not compressed, [^\n]*name it \.musicxml\n$/,
    ],
  ] as const) {
    const { code, stderr } = await mark(input, '-o', output);
    expect(code).toBe(1);
    expect(stderr).toMatch(advice);
  }
  expect((await mark('a.mxl', '-o', 'No. 2.mxl')).code).toBe(0);
  for (const name of ['waltz', 'No.2', 'waltz.pdf', 'new/']) {
    const { code, stderr } = await mark('b.musicxml', '-o', name);
    expect(code).toBe(2);
    expect(stderr).toMatch(/^handline: --output [^\n]+: the result is MusicXML; name it \.musicxml or, /);
  }
  expect(folder.names()).toEqual(['No. 2.mxl', 'a.mxl', 'b.musicxml']);
});

test('two threads tell of the scores in the order in which they are given', async () => {
  const bars = Array.from({ length: 150 }, () => note('C4', 4));
  folder.put('long.musicxml', onePart([attributes() + bars[0], ...bars.slice(1)]));
  for (const name of ['b', 'd']) folder.put(`${name}.musicxml`, scale());
  for (const name of ['c', 'e']) folder.put(`${name}.musicxml`, 'no score');
  const names = ['long', 'e', 'd', 'c', 'b'].map((name) => `${name}.musicxml`);
  const args = ['mark', ...names, '--out-dir', 'out', '--jobs', '2'];
  const { stdout, stderr } = await spawned(args, folder.path);
  expect(stderr.match(/^handline: \w+/gm)).toEqual(['handline: e', 'handline: c']);
  expect(stdout.toString().match(/out\/\w+(?=\.musicxml: )/g)).toEqual(['out/long', 'out/d', 'out/b']);
});

test('--check tells by its exit code whether anything would change, and writes nothing', async () => {
  edition();
  const fresh = await mark('ed', '--check');
  expect(fresh.code).toBe(7);
  expect(fresh.stdout.toString()).toContain('3 of 3 results differ from what is there; nothing was written');
  expect(fresh.stdout.toString()).toContain(`ed/${NAMES[0]}: the result differs from the file; nothing`);
  expect(read(`ed/${NAMES[0]}`)).toBe(scale());
  const missing = await mark('ed', '--out-dir', 'out', '--check');
  expect(missing.code).toBe(7);
  expect(missing.stdout.toString()).toContain('3 of 3 results are not there yet; nothing was written');
  expect(missing.stdout.toString()).toContain(`ed/${NAMES[0]}: there is no out/${NAMES[0]} yet; nothing was`);
  await mark('ed', '--out-dir', 'out', '--quiet');
  const same = await mark('ed', '--out-dir', 'out', '--check');
  expect(same.code).toBe(0);
  expect(same.stdout.toString()).toContain(`ed/${NAMES[0]}: out/${NAMES[0]} is what the result would be`);
  folder.put(`out/${NAMES[2]}`, 'edited by hand');
  const told = (await mark('ed', '--out-dir', 'out', '--check')).stdout.toString();
  const differs = `ed/${NAMES[2]}: the result differs from out/${NAMES[2]}; nothing was written`;
  expect(told.split('\n').find((line) => line.startsWith('ed/'))).toContain(differs);
  expect((await mark('ed', '--out-dir', 'out', '--check', '--digits', 'none')).code).toBe(7);
  expect((await mark('ed', '--in-place', '--quiet')).code).toBe(0);
  expect((await mark('ed', '--check')).code).toBe(0);
});
