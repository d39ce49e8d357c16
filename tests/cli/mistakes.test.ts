import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import yargs from 'yargs';
import { COMMANDS } from '../../packages/cli/src/commands/commands.js';
import { optionsOf } from '../../packages/cli/src/mistakes/parser.js';
import { DEMO, handline, scale, workFolder } from './harness.js';

const folder = workFolder();

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
      /: --outdir is not an option of handline mark; did you mean --out-dir\? \(handline help mark explains\)\n/,
    ],
    [
      'two unknown options',
      ['mark', 'a.musicxml', '--forse', '--jbos', '2', '-x'],
      /: --forse and --jbos and -x are not options of handline mark; did you mean --force and --jobs\? /,
    ],
    [
      'option before a command',
      ['--verzion'],
      /--verzion is not an option without a command; .*mean --version\?/,
    ],
    [
      'option without value',
      ['mark', 'a.musicxml', '-o'],
      /: -o needs a value after it \(Write the result to /,
    ],
    [
      'choice without value',
      ['mark', 'a.musicxml', '--hands'],
      /: --hands needs a value after it \(Hands to mark /,
    ],
    ['flag with a value', ['mark', 'a.musicxml', '--force=yes'], /: --force takes no value; /],
    ['empty choice', ['mark', 'a.musicxml', '--hands='], /: --hands is empty; give both, right or left \(/],
    [
      'unknown choice',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--hands', 'three'],
      /: --hands three is not allowed; give both, right or left \(/,
    ],
    [
      'name without an ending',
      ['mark', 'a.musicxml', '-o', 'x'],
      /: --output x: the result is MusicXML; name it /,
    ],
    [
      'page without an ending',
      ['handout', 'a.musicxml', '-o', 'x'],
      /: --output x: the result is a page of HTML; /,
    ],
    [
      'wrong part',
      ['mark', 'a.musicxml', '--part', 'p1'],
      /: --part: there is no part "p1"; .* P1; did you mean P1\?/,
    ],
    [
      'no such measure',
      ['mark', 'a.musicxml', '--measures', '9'],
      /: --measures: there is no measure 9 in this /,
    ],
    [
      'kind of a sheet',
      ['drill', '--kinds', 'mjor'],
      /^handline: --kinds: "mjor" is .*; did you mean major\?/,
    ],
    [
      'kinds that share a word',
      ['drill', '--kinds', 'minor'],
      /; did you mean natural-minor, harmonic-minor, melodic-minor or minor-pentatonic\?/,
    ],
    ['chords that share a word', ['drill', '--chords', 'dominant'], /; did you mean dominant-seventh\?/],
    [
      'rhythm of a sheet',
      ['drill', '--rhythm', 'eigth'],
      /^handline: --rhythm: "eigth" is .*; did you mean eighth\?/,
    ],
    ['lengths of a sheet', ['drill', '--fragments', '2-5'], /^handline: --fragments: 2 is not allowed; /],
    ['degrees of a sheet', ['drill', '--fragments', '5', '--degrees', '15'], /--degrees 15: .* from 1 to 12/],
    [
      'mistyped choice',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--digits', 'sprse'],
      /: --digits sprse is not allowed; give all, sparse or none; did you mean sparse\?/,
    ],
    [
      'choice in capitals',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--language', 'DE'],
      /: --language DE is not allowed; .*; did you mean de\?/,
    ],
    [
      'choice like none',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--language', 'zh'],
      /--language zh is not allowed; give en, de, fr, es or it \(/,
    ],
    [
      'two outputs',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--in-place'],
      /: -o and --in-place exclude each other; give one of them \(/,
    ],
    [
      'option twice',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '-o', 'y'],
      /--output is given more than once/,
    ],
    [
      'several inputs, one output',
      ['mark', 'a.musicxml', 'b.musicxml', '-o', 'x.musicxml'],
      /--out-dir DIR or --in-place/,
    ],
    ['several inputs, no output', ['mark', 'a.musicxml', 'b.musicxml'], /--out-dir DIR or --in-place/],
    ['bad measures', ['mark', 'a.musicxml', '-o', 'x.musicxml', '--measures', '1-2-3'], /--measures 1-2-3/],
    [
      'measures that run backwards',
      ['mark', DEMO, '-o', 'x.musicxml', '--measures', '8-3'],
      /--measures: 8-3: the last measure comes before the first; write 3-8\n/,
    ],
    [
      'measures of another score',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--measures', '9-1'],
      /--measures: 9-1 is not a range of this score; it runs from 1 to 1\n/,
    ],
    ['a handout of a folder', ['handout', '.', '-o', 'x.html'], /: a handout takes one score; /],
    ['a stand of a folder', ['stand', '.', '-o', 'x.html'], /: a stand begins with one score at most; /],
    ['bad staff', ['mark', 'a.musicxml', '-o', 'x.musicxml', '--staff', 'upper'], /--staff upper/],
    ['bad layer', ['mark', 'a.musicxml', '-o', 'x.musicxml', '--layers', 'depth,smell'], /no layer "smell"/],
    ['bad count', ['mark', 'a.musicxml', '-o', 'x.musicxml', '--alternatives', 'two'], /--alternatives two/],
    ['bad limit', ['mark', 'a.musicxml', '-o', 'x.musicxml', '--max-notes', '0'], /--max-notes 0/],
    [
      'no wording file',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--wording', 'no.json'],
      /--wording no.json cannot be read/,
    ],
    [
      'span of no hand',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--span', '13th'],
      /--span: "13th" is not allowed; give 140-300 mm or 14-30 cm, an interval from 7th to 12th/,
    ],
    [
      'span of no hand, in cm',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--span', 'right=5cm'],
      /--span: "5cm" is not allowed; give 140-300 mm/,
    ],
    [
      'bad span',
      ['mark', 'a.musicxml', '-o', 'x.musicxml', '--span', 'banana'],
      /--span: "banana" is not allowed; give 140-300 mm or 14-30 cm, an interval/,
    ],
    ['stdin in place', ['mark', '-', '--in-place'], /standard input cannot be changed in place/],
    ['stdin into a folder', ['mark', '-', '--out-dir', 'x'], /standard input has no name/],
    ['stdin twice', ['mark', '-', '-', '--out-dir', 'x'], /standard input/],
    ['bad trial', ['review', 'a.musicxml', '--try', 'm1 both 2 3'], /--try "m1 both 2 3" is not understood/],
    ['bad digit of a trial', ['review', 'a.musicxml', '--try', 'm1 right 2 6'], /"6" is not a digit/],
    ['bad threshold', ['review', 'a.musicxml', '--thresholds', 'look=much'], /"look=much" is not understood/],
    ['form without a score', ['review', 'a.musicxml', '--mark', 'words'], /--mark and --force need -o OUT/],
    [
      'two scores into one',
      ['review', 'a.musicxml', 'b.musicxml', '-o', 'x.musicxml'],
      /-o OUT takes one score/,
    ],
    ['measure of a trial', ['review', 'a.musicxml', '--try', 'm9 right 2'], /plays nothing in measure 9/],
    [
      'no notes left for a trial',
      ['review', 'a.musicxml', '--try', `m1 right ${'1 '.repeat(16)}`],
      /more than the notes/,
    ],
    ['chord of a trial', ['review', 'a.musicxml', '--try', 'm1 right 1-3'], /1 keys are struck/],
    [
      'marking options of clear',
      ['clear', 'a.musicxml', '-o', 'x.musicxml', '--hands', 'right'],
      /: --hands is not an option of handline clear \(/,
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

describe('whatever is wrong with an option, it is told in plain words, as typed', () => {
  const RAW = /\bArguments?\b|invalid|Choices:|exclusive|undefined|Given:/i;

  test.each(COMMANDS.filter(({ name }) => name !== 'completion'))('$name', async ({ name, load }) => {
    folder.put('a.musicxml', scale());
    const parser = (await load()).build(yargs());
    const { key, boolean, choices } = optionsOf(parser);
    const wrong = Object.keys(key)
      .filter((option) => option.length > 1 && option !== 'help' && option !== 'version')
      .flatMap((option) =>
        boolean.includes(option)
          ? [[`--${option}=no`], [`--${option}x`]]
          : [[`--${option}`], [`--${option}x`, 'a'], ...(choices[option] ? [[`--${option}`, 'zzzz']] : [])],
      );
    expect(wrong.length).toBeGreaterThan(15);
    for (const words of wrong) {
      const { code, stderr } = await handline([name, 'a.musicxml', ...words], folder.path);
      expect([words, code, stderr]).toEqual([words, 2, expect.stringMatching(/^handline: [^\n]+\n$/)]);
      expect(stderr).toContain(`: ${words[0]!.replace(/=.*/, '')} `);
      expect(stderr).not.toMatch(RAW);
    }
    expect(folder.names()).toEqual(['a.musicxml']);
  });
});
