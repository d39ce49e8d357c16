import { readFileSync } from 'node:fs';
import { cautionText } from '@handline/core';
import { describe, expect, test } from 'vitest';
import { CAUTION_TEXT } from '../../packages/cli/src/output/help.js';
import { spawned, workFolder } from './harness.js';

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
    // The help does not wait for core.
    expect(CAUTION_TEXT).toBe(cautionText('en'));
    expect(text.replaceAll(/\s+/g, ' ')).toContain(`Caution: ${CAUTION_TEXT}`);
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
