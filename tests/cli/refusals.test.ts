import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { handline, scale, workFolder } from './harness.js';

const folder = workFolder();

const bomb = `<?xml version="1.0"?>
<!DOCTYPE score-partwise [
<!ENTITY a "aaaaaaaaaaaaaaaa">
${'bcdefghij'
  .split('')
  .map((name, index) => `<!ENTITY ${name} "${`&${'abcdefghi'[index]};`.repeat(16)}">`)
  .join('\n')}
]>
${scale().replace(/^.*\n/, '').replace('<part-name>Piano', '<part-name>&j;')}`;

const external = `<?xml version="1.0"?>
<!DOCTYPE score-partwise [<!ENTITY x SYSTEM "file:///etc/passwd">]>
${scale().replace(/^.*\n/, '').replace('<part-name>Piano', '<part-name>&x;')}`;

const bad: [string, string | Uint8Array][] = [
  ['empty', ''],
  ['white space', ' \n\n'],
  ['HTML', '<!DOCTYPE html>\n<html><body><p>404</p></body></html>\n'],
  ['truncated', scale().slice(0, 900)],
  ['cut inside a tag', scale().slice(0, scale().indexOf('<octave>') + 4)],
  ['wrong root', '<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>\n'],
  ['plain text', 'C D E F G\n'],
  ['binary noise', Uint8Array.from({ length: 4096 }, (_, index) => (index * 7919 + 13) % 256)],
  [
    'broken UTF-8',
    Buffer.concat([Buffer.from(scale().replace('Piano', 'Pi@no')), Buffer.from([0xff, 0xc0])]),
  ],
  ['zip without container', zipSync({ 'score.xml': strToU8(scale()) })],
  ['zip cut short', zipSync({ 'score.xml': strToU8(scale()) }).slice(0, 200)],
  ['external entity', external],
  ['entity bomb', bomb],
];

describe('a bad file is refused in one line and nothing is written', () => {
  test.each(bad)('%s', async (name, content) => {
    folder.put('bad.musicxml', content);
    const outputs = [['-o', 'out.musicxml'], ['--out-dir', 'out'], ['--in-place']];
    const runs = await Promise.all(
      outputs.map((to) => handline(['mark', 'bad.musicxml', ...to], folder.path)),
    );
    for (const { code, signal, stdout, stderr } of runs) {
      expect({ name, code, signal, stdout: stdout.toString() }).toEqual({
        name,
        code: 1,
        signal: null,
        stdout: '',
      });
      expect(stderr).toMatch(/^handline: bad\.musicxml: [^\n]+\n$/);
      expect(stderr).not.toMatch(/\bat .*\.js|root:/);
      expect(stderr.length).toBeLessThan(400);
    }
    expect(folder.names()).toEqual(['bad.musicxml']);
  });

  test('by clear as well, which would have nothing to take out of it', async () => {
    for (const [name, content] of bad) folder.put(`${name}.xml`, content);
    const names = bad.map(([name]) => `${name}.xml`);
    const run = await handline(['clear', ...names, '--out-dir', 'out'], folder.path);
    expect(run.code).toBe(1);
    expect(run.stderr.trimEnd().split('\n')).toHaveLength(names.length);
    expect(folder.names()).toEqual([...names].sort());
  });

  test('on standard input too', async () => {
    const { code, stdout, stderr } = await handline(['mark', '-'], folder.path, '<html/>');
    expect({ code, stdout: stdout.toString() }).toEqual({ code: 1, stdout: '' });
    expect(stderr).toMatch(/^handline: standard input: [^\n]+\n$/);
  });

  test.each<[string, Uint8Array]>([
    ['a picture', Buffer.from('\x89PNG\r\n\x1a\n\0\0\0\rIHDR', 'latin1')],
    ['a PDF', Buffer.from('%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n', 'latin1')],
    ['a photograph', Buffer.from('\xff\xd8\xff\xe0\0\x10JFIF', 'latin1')],
    ['a ZIP archive', zipSync({ 'notes.txt': strToU8('C D E') })],
  ])('%s under the name of a score is said to be none', async (_, content) => {
    for (const kind of ['musicxml', 'mxl']) {
      folder.put(`a.${kind}`, content);
      for (const command of ['mark', 'clear']) {
        const { code, stderr } = await handline([command, `a.${kind}`, '-o', `x.${kind}`], folder.path);
        expect(code).toBe(1);
        expect(stderr).toMatch(
          /^handline: a\.\w+: is not a MusicXML file[^\n]*; export the score as [^\n]+\n$/,
        );
      }
    }
    expect(folder.names()).toEqual(['a.musicxml', 'a.mxl']);
  });

  test('a missing file, and a folder without scores', async () => {
    const missing = await handline(['mark', 'none.musicxml', '--out-dir', 'out'], folder.path);
    expect([missing.code, missing.stderr]).toEqual([
      1,
      'handline: none.musicxml: there is no such file or folder; check the name\n',
    ]);
    const empty = await handline(['mark', folder.path, '--out-dir', 'out'], folder.path);
    expect(empty.code).toBe(2);
    expect(empty.stderr).toMatch(/^handline: [^\n]* holds no score [^\n]*\n$/);
    expect(folder.names()).toEqual([]);
  });

  test('a limit that the command line lowers', async () => {
    folder.put('a.musicxml', scale({ notes: 40 }));
    for (const limit of ['--max-notes=10', '--max-depth=3', '--max-bytes=500']) {
      const { code, stderr } = await handline(['mark', 'a.musicxml', '-o', 'x.xml', limit], folder.path);
      expect({ limit, code }).toEqual({ limit, code: 1 });
      expect(stderr).toMatch(/^handline: a\.musicxml: [^\n]+\n$/);
    }
    expect(folder.names()).toEqual(['a.musicxml']);
  });

  test('a .mxl beyond the ratio, unless the command line raises it', async () => {
    const container = '<container><rootfiles><rootfile full-path="s.xml"/></rootfiles></container>';
    const score = strToU8(scale().replace('<part id', `${' '.repeat(2_000_000)}<part id`));
    folder.put('a.mxl', zipSync({ 'META-INF/container.xml': strToU8(container), 's.xml': score }));
    const refused = await handline(['mark', 'a.mxl', '-o', 'x.mxl'], folder.path);
    expect(refused.code).toBe(1);
    expect(refused.stderr).toMatch(/^handline: a\.mxl: [^\n]*\(--max-bytes, --max-ratio\)\n$/);
    expect(folder.names()).toEqual(['a.mxl']);
    const taken = await handline(['mark', 'a.mxl', '-o', 'x.mxl', '--max-ratio', '2000'], folder.path);
    expect({ code: taken.code, stderr: taken.stderr }).toEqual({ code: 0, stderr: '' });
    const beyond = await handline(['mark', 'a.mxl', '-o', 'y.mxl', '--max-depth', '1001'], folder.path);
    expect(beyond).toMatchObject({
      code: 2,
      stderr: 'handline: a.mxl: --max-depth: 1001 is not allowed; give a number above 0 and up to 1000\n',
    });
  });

  test('a name with line breaks and escapes stays on one line', async () => {
    folder.put('b\n\u001b[31mad.xml', '');
    const { stderr } = await handline(['mark', 'b\n\u001b[31mad.xml', '-o', 'x.xml'], folder.path);
    expect(stderr).toMatch(/^handline: b \\u001b\[31mad\.xml: [^\n]+\n$/);
  });
});

describe('where there is nothing to mark', () => {
  const flute = scale({ part: 'Flute', sound: 'wind.flutes.flute' });

  test('the result is an untouched copy, with a warning', async () => {
    folder.put('flute.musicxml', flute);
    const { code, stdout, stderr } = await handline(
      ['mark', 'flute.musicxml', '-o', 'out.musicxml'],
      folder.path,
    );
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout.toString()).toContain('NO_PIANO');
    const copy = await handline(['mark', 'flute.musicxml'], folder.path);
    expect(copy.stdout.toString()).toBe(flute);
    expect(copy.stderr).toContain('NO_PIANO');
  });

  test('--strict refuses it, --in-place leaves it alone without a backup', async () => {
    folder.put('flute.musicxml', flute);
    const strict = await handline(['mark', 'flute.musicxml', '-o', 'out.musicxml', '--strict'], folder.path);
    expect(strict.code).toBe(1);
    expect(strict.stderr).toMatch(/^handline: flute\.musicxml: [^\n]+\n$/);
    const inPlace = await handline(['mark', 'flute.musicxml', '--in-place'], folder.path);
    expect(inPlace.code).toBe(0);
    expect(inPlace.stdout.toString()).toContain('nothing to change, the file is as it was');
    expect(folder.names()).toEqual(['flute.musicxml']);
  });
});

describe('one bad file among several', () => {
  test('does not stop the others, and the exit code tells', async () => {
    folder.put('a.musicxml', scale());
    folder.put('b.musicxml', '<html/>');
    folder.put('c.musicxml', scale());
    const run = await handline(
      ['mark', 'a.musicxml', 'b.musicxml', 'c.musicxml', '--out-dir', 'out'],
      folder.path,
    );
    expect(run.code).toBe(1);
    expect(run.stderr).toMatch(/^handline: b\.musicxml: [^\n]+\n$/);
    expect(run.stdout.toString()).toContain('2 of 3 scores');
    expect(folder.names('out')).toEqual(['.handline-done', 'a.musicxml', 'c.musicxml']);
  });

  test('the highest code counts, and --json holds every outcome', async () => {
    folder.put('a.musicxml', scale());
    folder.put('b.musicxml', '');
    folder.put('c.musicxml', scale());
    await handline(['mark', 'a.musicxml', '--out-dir', 'out'], folder.path);
    const args = ['mark', 'a.musicxml', 'b.musicxml', 'c.musicxml', '--out-dir', 'out', '--json'];
    const run = await handline(args, folder.path);
    expect(run.code).toBe(3);
    const { files } = JSON.parse(run.stdout.toString());
    expect(files.map((file: { input: string; status: string }) => [file.input, file.status])).toEqual([
      ['a.musicxml', 'unwritten'],
      ['b.musicxml', 'refused'],
      ['c.musicxml', 'written'],
    ]);
    expect(files[1].error).toMatchObject({ code: 'EMPTY', place: { file: 'b.musicxml' } });
    expect(files[2].lines[0]).toMatchObject({ hand: 'right', notes: 15, fingered: 15 });
    expect(run.stderr.split('\n')).toHaveLength(3);
  });
});
