import { expect, test } from 'vitest';
import yargs from 'yargs';
import { COMMANDS } from '../../packages/cli/src/commands/commands.js';
import { optionsOf } from '../../packages/cli/src/mistakes/parser.js';
import { handline, spawned, workFolder } from './harness.js';

const folder = workFolder();

async function completed(...words: string[]): Promise<string[]> {
  const { code, stdout, stderr } = await handline(
    ['--get-yargs-completions', 'handline', ...words],
    folder.path,
  );
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return stdout.toString().split('\n').filter(Boolean);
}

test.each<[string[], string[]]>([
  [
    ['mark', '--density', ''],
    ['every', 'essential', 'demanding'],
  ],
  [
    ['mark', 'a.xml', '--hands', 'r'],
    ['both', 'right', 'left'],
  ],
  [
    ['mark', '--layers', ''],
    ['depth', 'crossing', 'carry', 'contour', 'roll', 'all', 'none'],
  ],
  [['mark', '--language=d'], ['en', 'de', 'fr', 'es', 'it'].map((name) => `--language=${name}`)],
  [
    ['mark', '--language', '=', 'd'],
    ['en', 'de', 'fr', 'es', 'it'],
  ],
  [
    ['mark', '--language', '='],
    ['en', 'de', 'fr', 'es', 'it'],
  ],
  [
    ['review', '--fail-on', ''],
    ['change', 'look', 'remark'],
  ],
  [
    ['completion', ''],
    ['bash', 'zsh', 'fish'],
  ],
  [
    ['mark', '--o'],
    ['--output', '--out-dir'],
  ],
  [['mark', '-q'], ['-q']],
  [['mark', '--outp'], ['--output']],
  [['mark', '--force', '--f'], ['--for']],
  // A handout has a legend of its own.
  [['handout', '--leg'], []],
  // Names of files are the shell's.
  [['mark', ''], []],
  [['mark', 'sco'], []],
  [['mark', '--force', ''], []],
  [['mark', '-o', ''], []],
  [['mark', '--out-dir', ''], []],
])('%j', async (words, values) => {
  expect(await completed(...words)).toEqual(values);
});

test('a list goes on behind its comma', async () => {
  expect(await completed('mark', '--layers', 'depth,c')).toContain('depth,crossing');
  expect(await completed('mark', '--layers=depth,carry,')).toEqual([
    '--layers=depth,carry,crossing',
    '--layers=depth,carry,contour',
    '--layers=depth,carry,roll',
  ]);
});

test('lists of technique sheets are those that core allows', async () => {
  for (const [option, value] of [
    ['kinds', 'octatonic-half-whole'],
    ['chords', 'augmented-major-seventh'],
    ['patterns', 'five-finger'],
    ['rhythm', 'dotted-eighth'],
    ['keys', 'Bb'],
    ['span', 'octave'],
  ] as const)
    expect(await completed('drill', `--${option}`, '')).toContain(value);
});

test('students of the file of settings', async () => {
  expect(await completed('mark', '--for', '')).toEqual([]);
  folder.put('handline.config.json', '{"for": {"Ida": {}, "Jo": {}}}');
  expect(await completed('mark', '--for', '')).toEqual(['Ida', 'Jo']);
  folder.put('handline.config.json', '{');
  expect(await completed('mark', '--for', '')).toEqual([]);
});

test('commands, and options of a command, none left out', async () => {
  // yargs itself answers, on the standard output of the process.
  const ask = async (...words: string[]) => {
    const { stdout } = await spawned(['--get-yargs-completions', 'handline', ...words], folder.path);
    return stdout
      .toString()
      .split('\n')
      .map((line) => line.replace(/[:\t].*/, ''));
  };
  expect((await ask('')).filter(Boolean)).toEqual(COMMANDS.map(({ name }) => name));
  const { build } = await COMMANDS[0]!.load();
  const names = Object.keys(optionsOf(build(yargs())).key).filter((name) => name.length > 1);
  expect(await ask('mark', '--')).toEqual(expect.arrayContaining(names.map((name) => `--${name}`)));
});
