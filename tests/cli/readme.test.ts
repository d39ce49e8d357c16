import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import * as core from '@handline/core';
import { strToU8, zipSync } from 'fflate';
import { beforeAll, describe, expect, test } from 'vitest';
import { FIXTURES } from '../scores.js';
import { DEMO, handline, MAIN, spawned, workFolder } from './harness.js';

const folder = workFolder();
/** A short piece with digits, for the examples to run on. */
const SHORT = readFileSync(`${FIXTURES}scores/schumann-op15-1.musicxml`);
const source = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const readme = source('README.md');

/** Lines without indentation: the README shows the demo's lines flush left. */
const flat = (text: string) => text.replace(/^ +/gm, '').trim();

const blocks = (language: string): string[] =>
  [...readme.matchAll(new RegExp(`\`\`\`${language}\\n(.*?)\`\`\``, 'gs'))].map((match) => match[1] ?? '');

/** Runs an example as it stands, its imports taken from core. */
function runExample(code: string, given: Readonly<Record<string, unknown>>): void {
  const own = code.replace(/^import (\{.*\}) from '@handline\/core';$/m, 'const $1 = core;');
  expect(own).not.toBe(code);
  new Function(...Object.keys(given), own)(...Object.values(given));
}

/** The entries of a .mxl archive that holds a score. */
const container = (score: Uint8Array) => ({
  'META-INF/container.xml': strToU8(
    '<container><rootfiles><rootfile full-path="score.musicxml"/></rootfiles></container>',
  ),
  'score.musicxml': score,
});

describe('the README is true', () => {
  let help = '';

  beforeAll(async () => {
    const texts = ['mark', 'review', 'drill', 'handout', 'stand'].map((command) =>
      spawned([command, '--help'], '.'),
    );
    help = (await Promise.all(texts)).map(({ stdout }) => stdout.toString()).join('\n');
  });

  test('its example before and after is a note of the demo that gets a cue', async () => {
    const [before = '', after = ''] = blocks('xml').map(flat);
    expect(flat(readFileSync(DEMO, 'utf8'))).toContain(before);
    const marked = await handline(['mark', DEMO, '--quiet', '-o', '-'], folder.path);
    const withCue = /<\?handline cue [^?]*\?><direction.*?<\/direction>\n<note>.*?<\/note>/gs;
    const notes = flat(marked.stdout.toString()).match(withCue) ?? [];
    const unmarked = (note: string) =>
      note
        .replace(/^<\?handline cue .*?<\/direction>\n/s, '')
        .replace(/<\?handline digit .*?<\/notations>\n/s, '');
    expect(notes.filter((note) => unmarked(note) === before)).toContain(after);
  });

  test('its commands run, and end well', async () => {
    const lines = blocks('sh').join('').split('\n');
    const commands = lines.filter((line) => line.startsWith('npx handline'));
    expect(commands.length).toBeGreaterThan(4);
    mkdirSync(folder.at('scores'));
    mkdirSync(folder.at('edition/one'), { recursive: true });
    folder.put('waltz.musicxml', SHORT);
    folder.put('edition/one/waltz.musicxml', SHORT);
    folder.put('scores/waltz.mxl', zipSync(container(SHORT)));
    for (const command of commands) {
      const own = command.replace('npx handline', '"$0" "$1"');
      const options = { cwd: folder.path, encoding: 'utf8' } as const;
      const { status, stderr } = spawnSync('bash', ['-c', own, process.execPath, MAIN], options);
      expect({ command, status, refusals: stderr.match(/^handline: .*/gm) }).toEqual({
        command,
        status: 0,
        refusals: null,
      });
    }
    expect(folder.names('marked')).toEqual(['.handline-done', 'one', 'waltz.mxl']);
    expect(readFileSync(folder.at('unmarked.musicxml')).equals(SHORT)).toBe(true);
  });

  test('its first two commands are what CI runs', () => {
    const commands = blocks('sh')[0]?.match(/^npm .*?(?= +#)/gm) ?? [];
    expect(commands).toHaveLength(2);
    for (const command of commands) expect(source('.ci/run').split('\n')).toContain(`(${command})`);
  });

  test('its examples of the library run, and find what they print', async () => {
    const [first = '', stages = '', judging = ''] = blocks('ts');
    const bytes = new Uint8Array(SHORT);
    const printed: unknown[][] = [];
    const saved: Uint8Array[] = [];
    const given = {
      core,
      bytes,
      save: (output: Uint8Array) => saved.push(output),
      console: { log: (...own: unknown[]) => printed.push(own), warn: () => undefined, error: expect.fail },
    };
    runExample(first, given);
    expect(printed.map(([hand]) => hand)).toEqual(['right', 'left']);
    for (const values of printed) expect(values).not.toContain(undefined);
    expect(saved).toHaveLength(1);
    expect(Buffer.compare(core.clear(saved[0]!).output, bytes)).toBe(0);
    const seen: Record<string, unknown>[] = [];
    runExample(
      stages
        .replace(/(const best = .*\n)/, '$1  see({ fingering, plan, best });\n')
        .concat('\nsee({ lines });'),
      { ...given, see: (own: Record<string, unknown>) => seen.push(own) },
    );
    expect(seen).toHaveLength(3);
    for (const { fingering, plan, best } of seen.slice(0, 2)) {
      expect(fingering).toMatchObject({ cost: expect.any(Number), slices: expect.any(Array) });
      expect(plan).toMatchObject({ slices: expect.any(Array) });
      expect(best).toHaveLength(3);
    }
    expect(seen[2]?.lines).toHaveLength(2);
    const before = [printed.length, saved.length] as const;
    runExample(judging.replace(/ as const/g, '').replace(/!(?=[;,.])/g, ''), given);
    const [text, more] = printed.slice(before[0]).flat();
    expect(text).toContain('waltz.musicxml\n\n');
    expect(more).toBeLessThanOrEqual(0);
    expect(Buffer.compare(core.clear(saved[before[1]]!).output, bytes)).toBe(0);
  });

  test('it names every option of every command that takes scores or makes them, and no other', () => {
    const known = new Set(help.match(/--[a-z-]+/g));
    const told = new Set(readme.match(/(?<![a-z])--[a-z]+(?:-[a-z]+)*/g));
    known.delete('--version');
    expect([...told].filter((name) => name !== '--version').sort()).toEqual([...known].sort());
  });

  test('it explains every code of an error or warning', () => {
    const union = source('packages/core/src/score/errors.ts').matchAll(/^ {2}\| '([A-Z_]+)'/gm);
    const codes = [...union].map((match) => match[1]);
    expect(codes.length).toBeGreaterThan(15);
    for (const code of codes) expect(readme).toContain(`| \`${code}\` |`);
  });

  test('it and the help list the same exit codes', () => {
    const told = [...readme.matchAll(/^\| (\d) \| /gm)].map((match) => match[1]);
    expect(told).toEqual(['0', '1', '2', '3', '4', '5', '6', '7']);
    for (const code of told) expect(help).toMatch(new RegExp(`[:;]\\s+${code}\\s`));
  });

  test('its limits are core’s', () => {
    const limits = source('packages/core/src/options/limits.ts');
    for (const name of ['maxDepth', 'maxNotes', 'maxRatio']) {
      const value = new RegExp(`${name}: ([\\d_]+),`).exec(limits)?.[1]?.replaceAll('_', '');
      expect(readme).toContain(
        `| ${Number(value).toLocaleString('en')} | \`--max-${name.slice(3).toLowerCase()}\` |`,
      );
    }
    for (const name of ['MAX_ARCHIVE_ENTRIES', 'MAX_DURATION_QUARTERS', 'MAX_SCORE_QUARTERS', 'MAX_STAVES']) {
      const value = Number(new RegExp(`${name} = ([\\d_]+);`).exec(limits)?.[1]?.replaceAll('_', ''));
      expect(readme).toMatch(new RegExp(`\\b${value.toLocaleString('en')}(?:th)?\\b`));
    }
    expect(limits).toContain('{ maxBytes: 500_000_000, maxDepth: 1000 }');
    for (const most of ['500,000,000', '1,000']) expect(readme).toContain(`(at most ${most})`);
    expect(limits).toContain('maxBytes: 128 * 1024 * 1024');
    expect(readme).toContain('134,217,728');
  });
});
