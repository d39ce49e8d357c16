import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { DEMO, handline, scale, spawned, workFolder } from './harness.js';

const folder = workFolder();

describe('help', () => {
  test('names the commands, the exit codes and the caution', async () => {
    const { code, stdout, stderr } = await spawned(['--help'], folder.path);
    const text = stdout.toString();
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(text).toContain('handline mark');
    expect(text).toContain('handline clear');
    expect(text).toContain('handline review');
    expect(text).toContain('handline drill');
    expect(text).toContain('handline handout');
    expect(text).toContain('Exit codes: 0 all done');
    expect(text).toMatch(/Stop at pain, numbness or fatigue/);
  });

  test('of mark groups every option under a heading and fits 100 columns', async () => {
    const { code, stdout } = await spawned(['mark', '--help'], folder.path);
    const text = stdout.toString();
    expect(code).toBe(0);
    const headings = text.split('\n').filter((line) => /^\S.*:$/.test(line));
    expect(headings).toEqual([
      'Where the result goes (the input stays as it is unless --in-place is given):',
      'Many scores:',
      'What is reported:',
      'Settings (the command line goes before the student, the student before the rest of the file):',
      'What is marked:',
      'Fingering digits:',
      'Motion cues:',
      'Limits against damaged or hostile files:',
      'Options:',
      'Examples:',
    ]);
    const options = [...text.matchAll(/^ {2,6}(?:-\w, )?(--[a-z-]+)/gm)].map((match) => match[1]);
    expect(options).toEqual(
      [
        ['--output', '--out-dir', '--root', '--in-place', '--force', '--check'],
        ['--jobs', '--skip-done', '--dry-run'],
        ['--json', '--report', '--quiet', '--strict'],
        ['--for', '--config'],
        ['--hands', '--part', '--staff', '--measures', '--span'],
        ['--digits', '--existing', '--by', '--alternatives', '--share-hands'],
        ['--layers', '--density', '--language', '--wording', '--legend'],
        ['--max-bytes', '--max-depth', '--max-notes', '--max-ratio'],
        ['--help', '--version'],
      ].flat(),
    );
    expect(text).toMatch(/Stop at pain, numbness or fatigue/);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  test('of handout has every option that means something there, and the caution', async () => {
    const { code, stdout } = await spawned(['handout', '--help'], folder.path);
    const text = stdout.toString();
    expect(code).toBe(0);
    const options = [...text.matchAll(/^ {2,6}(?:-\w, )?(--[a-z-]+)/gm)].map((match) => match[1]);
    expect(options).toEqual(
      [
        ['--title', '--student', '--date', '--notes', '--compare', '--views'],
        ['--output', '--force'],
        ['--quiet', '--strict'],
        ['--for', '--config'],
        ['--hands', '--part', '--staff', '--measures', '--span'],
        ['--digits', '--existing', '--by'],
        ['--layers', '--density', '--language', '--wording'],
        ['--max-bytes', '--max-depth', '--max-notes', '--max-ratio'],
        ['--help', '--version'],
      ].flat(),
    );
    expect(text).toMatch(/Stop at pain, numbness or fatigue/);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  test('of review has every option, its examples and the caution', async () => {
    const { code, stdout } = await spawned(['review', '--help'], folder.path);
    const text = stdout.toString();
    expect(code).toBe(0);
    const options = [...text.matchAll(/^ {2,6}(?:-\w, )?(--[a-z-]+)/gm)].map((match) => match[1]);
    expect(options).toEqual(
      [
        ['--for', '--config'],
        ['--hands', '--part', '--staff', '--measures', '--span'],
        ['--try', '--against', '--alternatives'],
        [
          '--language',
          '--thresholds',
          '--all',
          '--json',
          '--markdown',
          '--report',
          '--quiet',
          '--jobs',
          '--skip-done',
          '--fail-on',
        ],
        ['--output', '--mark', '--force'],
        ['--max-bytes', '--max-depth', '--max-notes', '--max-ratio'],
        ['--help', '--version'],
      ].flat(),
    );
    expect(text.match(/^ {2}handline review/gm)).toHaveLength(2);
    expect(text).toMatch(/Stop at pain, numbness or fatigue/);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  test('the version is the package’s', async () => {
    const manifest = JSON.parse(
      readFileSync(new URL('../../packages/cli/package.json', import.meta.url), 'utf8'),
    );
    expect((await spawned(['--version'], folder.path)).stdout.toString()).toBe(`${manifest.version}\n`);
  });
});

describe('a wrong command line ends with 2, one line, and writes nothing', () => {
  test.each<[string, string[], RegExp]>([
    ['no command', [], /no command given; use mark, clear, handout, stand, review or drill/],
    [
      'unknown command',
      ['finger', 'a.musicxml'],
      /"finger" is not a command; use mark, clear, handout, stand, review or drill/,
    ],
    ['help for no command', ['help', 'nonsense'], /: "nonsense" is not a command; use mark, [^;]* drill \(/],
    ['help for a mistyped command', ['help', 'Mrak'], /"Mrak" is not a command; .*; did you mean mark\?/],
    ['help for two commands', ['help', 'review', 'extra'], /: help takes one command; /],
    ['no input', ['mark'], /no score given/],
    [
      'unknown option',
      ['mark', 'a.musicxml', '--outdir', 'x'],
      /Unknown argument: outdir; did you mean --out-dir\?/,
    ],
    ['option without value', ['mark', 'a.musicxml', '-o'], /Not enough arguments following: o/],
    ['unknown choice', ['mark', 'a.musicxml', '-o', 'x', '--hands', 'three'], /hands.*"three".*"both"/],
    [
      'mistyped choice',
      ['mark', 'a.musicxml', '-o', 'x', '--digits', 'sprse'],
      /Given: "sprse".*; did you mean sparse\?/,
    ],
    [
      'choice in capitals',
      ['mark', 'a.musicxml', '-o', 'x', '--language', 'DE'],
      /Given: "DE".*; did you mean de\?/,
    ],
    [
      'choice like none',
      ['mark', 'a.musicxml', '-o', 'x', '--language', 'zh'],
      /Choices: "en", "de", "fr", "es", "it" \(/,
    ],
    ['two outputs', ['mark', 'a.musicxml', '-o', 'x', '--in-place'], /mutually exclusive/],
    ['option twice', ['mark', 'a.musicxml', '-o', 'x', '-o', 'y'], /--output is given more than once/],
    [
      'several inputs, one output',
      ['mark', 'a.musicxml', 'b.musicxml', '-o', 'x'],
      /--out-dir DIR or --in-place/,
    ],
    ['several inputs, no output', ['mark', 'a.musicxml', 'b.musicxml'], /--out-dir DIR or --in-place/],
    ['bad measures', ['mark', 'a.musicxml', '-o', 'x', '--measures', '1-2-3'], /--measures 1-2-3/],
    [
      'measures that run backwards',
      ['mark', DEMO, '-o', 'x', '--measures', '8-3'],
      /measures: 8-3: the last measure comes before the first; write 3-8\n/,
    ],
    [
      'measures of another score',
      ['mark', 'a.musicxml', '-o', 'x', '--measures', '9-1'],
      /measures: 9-1 is not a range of this score; it runs from 1 to 1\n/,
    ],
    ['a handout of a folder', ['handout', '.', '-o', 'x.html'], /: a handout takes one score; /],
    ['a stand of a folder', ['stand', '.', '-o', 'x.html'], /: a stand begins with one score at most; /],
    ['bad staff', ['mark', 'a.musicxml', '-o', 'x', '--staff', 'upper'], /--staff upper/],
    ['bad layer', ['mark', 'a.musicxml', '-o', 'x', '--layers', 'depth,smell'], /no layer "smell"/],
    ['bad count', ['mark', 'a.musicxml', '-o', 'x', '--alternatives', 'two'], /--alternatives two/],
    ['bad limit', ['mark', 'a.musicxml', '-o', 'x', '--max-notes', '0'], /--max-notes 0/],
    [
      'no wording file',
      ['mark', 'a.musicxml', '-o', 'x', '--wording', 'no.json'],
      /--wording no.json cannot be read/,
    ],
    [
      'bad span',
      ['mark', 'a.musicxml', '-o', 'x', '--span', 'banana'],
      /--span: "banana" is not allowed; give 140-300 mm or 14-30 cm, an interval/,
    ],
    ['stdin in place', ['mark', '-', '--in-place'], /standard input cannot be changed in place/],
    ['stdin into a folder', ['mark', '-', '--out-dir', 'x'], /standard input has no name/],
    ['stdin twice', ['mark', '-', '-', '--out-dir', 'x'], /standard input/],
    ['bad trial', ['review', 'a.musicxml', '--try', 'm1 both 2 3'], /--try "m1 both 2 3" is not understood/],
    ['bad digit of a trial', ['review', 'a.musicxml', '--try', 'm1 right 2 6'], /"6" is not a digit/],
    ['bad threshold', ['review', 'a.musicxml', '--thresholds', 'look=much'], /"look=much" is not understood/],
    ['form without a score', ['review', 'a.musicxml', '--mark', 'words'], /--mark and --force need -o OUT/],
    ['two scores into one', ['review', 'a.musicxml', 'b.musicxml', '-o', 'x'], /-o OUT takes one score/],
    ['measure of a trial', ['review', 'a.musicxml', '--try', 'm9 right 2'], /plays nothing in measure 9/],
    [
      'no notes left for a trial',
      ['review', 'a.musicxml', '--try', `m1 right ${'1 '.repeat(16)}`],
      /more than the notes/,
    ],
    ['chord of a trial', ['review', 'a.musicxml', '--try', 'm1 right 1-3'], /1 keys are struck/],
    [
      'marking options of clear',
      ['clear', 'a.musicxml', '-o', 'x', '--hands', 'right'],
      /Unknown argument: hands/,
    ],
  ])('%s', async (_, args, message) => {
    folder.put('a.musicxml', scale());
    folder.put('b.musicxml', scale());
    const { code, stdout, stderr } = await handline(args, folder.path);
    expect(code).toBe(2);
    expect(stdout.length).toBe(0);
    expect(stderr).toMatch(/^handline: [^\n]+\n$/);
    expect(stderr).toMatch(message);
    expect(folder.names()).toEqual(['a.musicxml', 'b.musicxml']);
  });

  test.each<[string, string[], RegExp]>([
    ['same file twice', ['a.musicxml', './a.musicxml', '--in-place'], /are the same file; give it once/],
    [
      'result over the input',
      ['a.musicxml', '-o', 'a.musicxml', '--force'],
      /overwrite the input a.musicxml/,
    ],
    [
      'result over another input',
      ['a.musicxml', 'sub/a.musicxml', '--out-dir', 'sub'],
      /overwrite the input sub.a.musicxml/,
    ],
    [
      'score outside the folder to be mirrored',
      ['a.musicxml', 'sub/a.musicxml', '--out-dir', 'out', '--root', 'sub'],
      /a\.musicxml lies outside --root sub/,
    ],
  ])('%s', async (_, args, message) => {
    const { mkdirSync } = await import('node:fs');
    mkdirSync(folder.at('sub'));
    folder.put('a.musicxml', scale());
    folder.put('sub/a.musicxml', scale());
    folder.put('sub/b.musicxml', scale());
    const { code, stderr } = await handline(['mark', ...args], folder.path);
    expect({ code, lines: stderr.split('\n').length }).toEqual({ code: 2, lines: 2 });
    expect(stderr).toMatch(message);
    expect([folder.names(), folder.names('sub')]).toEqual([
      ['a.musicxml', 'sub'],
      ['a.musicxml', 'b.musicxml'],
    ]);
    expect(readFileSync(folder.at('a.musicxml'), 'utf8')).toBe(scale());
  });
});
