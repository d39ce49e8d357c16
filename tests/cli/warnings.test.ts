import { readFileSync } from 'node:fs';
import type { Warning } from '@handline/core';
import { annotate } from '@handline/core';
import { unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { attributes, backup, bytesOf, note, onePart, rest } from '../musicxml/read-source.js';
import { handline, scale, workFolder } from './harness.js';

const folder = workFolder();
const digit = (finger: number | string) => `<technical><fingering>${finger}</fingering></technical>`;
const chordOf = (...pitches: string[]) =>
  pitches.map((pitch, at) => note(pitch, 4, { lead: at === 0 ? '' : '<chord/>' })).join('');

/** A mark of ours that somebody has changed. */
const changed = annotate(scale()).output.replace(/(<fingering [^>]*>)\d/, '$1p');
/** A digit of the user's replaced, then all instructions dropped and its note taken out. */
const printed = onePart([attributes() + note('C5', 4, { notations: digit(3) }) + note('E5', 4)]);
const lost = annotate(printed, { existing: 'replace' })
  .output.replaceAll(/<\?handline[^?]*\?>/g, '')
  .replace(/<note>[\s\S]*?<\/note>/, '<forward><duration>4</duration></forward>');
const { 'META-INF/handline-original': _, ...dropped } = unzipSync(annotate(bytesOf('compressed.mxl')).output);

const MANY = 40;

/** A file for every kind of warning that `mark` can give. */
const WARNED: Readonly<Record<string, readonly [Warning['code'], string | Uint8Array]>> = {
  'flute.xml': ['NO_PIANO', scale({ part: 'Flute', sound: 'wind.flutes.flute' })],
  'high.xml': ['OUT_OF_RANGE', onePart([attributes() + note('C9', 4) + note('C5', 4)])],
  'late.xml': ['IMPERFECT', onePart([note('C5', 4)])],
  'wide.xml': [
    'UNPLAYABLE',
    onePart(Array.from({ length: MANY }, () => attributes() + chordOf('C3', 'C4', 'C6'))),
  ],
  'cross.xml': [
    'DIGIT_CONFLICT',
    onePart([
      attributes() +
        note('C5', 4, { notations: digit(3) }) +
        note('E5', 4, { lead: '<chord/>', notations: digit(3) }),
    ]),
  ],
  'stack.xml': ['DIGIT_IGNORED', onePart([attributes() + note('C5', 4, { notations: digit('5 3 1') })])],
  'visit.xml': [
    'HAND_MOVED',
    onePart([
      attributes() +
        chordOf('C6').repeat(4) +
        backup(16) +
        Array.from({ length: 4 }, () => note('C2', 4, { staff: 2, voice: '5' })).join('') +
        note('C6', 4, { staff: 1, voice: '5', lead: '<chord/>' }),
    ]),
  ],
  'rests.xml': ['EMPTY_SELECTION', onePart([attributes() + rest(16)])],
  'ours.xml': ['NOT_OURS', changed],
  'lost.xml': ['DIGIT_LOST', lost],
};

describe('warnings', () => {
  test('all of them stand in --json, with the place of each, and not one of a kind is left out', async () => {
    for (const [name, [, content]] of Object.entries(WARNED)) folder.put(name, content);
    const names = Object.keys(WARNED);
    const run = await handline(['mark', ...names, '--out-dir', 'out', '--json'], folder.path);
    expect({ code: run.code, stderr: run.stderr }).toEqual({ code: 0, stderr: '' });
    const { files } = JSON.parse(run.stdout.toString()) as {
      files: { input: string; warnings: Warning[] }[];
    };
    expect(files.map(({ input }) => input)).toEqual(names);
    for (const { input, warnings } of files) {
      const [code] = WARNED[input] as readonly [string, unknown];
      expect({ input, codes: [...new Set(warnings.map((one) => one.code))] }).toEqual({
        input,
        codes: [code],
      });
      expect(warnings).toHaveLength(input === 'wide.xml' ? MANY : 1);
      for (const { message, place } of warnings) {
        expect(place.file).toBe(input);
        expect(message).toMatch(/^[^\n]+$/);
      }
      if (input !== 'flute.xml' && input !== 'rests.xml') {
        const place = { part: 'P1', measure: '1', line: expect.any(Number), column: expect.any(Number) };
        expect(warnings[0]?.place).toMatchObject(place);
      }
    }
    expect(
      files.find(({ input }) => input === 'wide.xml')?.warnings.map(({ place }) => place.measure),
    ).toEqual(Array.from({ length: MANY }, (_, index) => String(index + 1)));
  });

  test('--strict makes an error of every one, and nothing is written', async () => {
    for (const [name, [, content]] of Object.entries(WARNED)) folder.put(name, content);
    folder.put('good.xml', scale());
    const names = [...Object.keys(WARNED), 'good.xml'];
    const run = await handline(['mark', ...names, '--out-dir', 'out', '--strict', '--json'], folder.path);
    expect(run.code).toBe(1);
    expect(run.stderr.split('\n')).toHaveLength(names.length);
    const { files } = JSON.parse(run.stdout.toString());
    for (const file of files.slice(0, -1)) {
      expect(file).toMatchObject({
        status: 'refused',
        error: {
          code: 'WARNING_AS_ERROR',
          warning: WARNED[file.input]?.[0],
          place: { file: file.input },
        },
      });
    }
    expect(files.at(-1)).toMatchObject({ input: 'good.xml', status: 'written', warnings: [] });
    expect(folder.names('out')).toEqual(['.handline-done', 'good.xml']);
  });

  test('a chord that the hands share is told instead of warned of, and marked', async () => {
    const tenth = attributes() + chordOf('C4', 'G4', 'E5') + rest(12) + backup(16) + rest(16, '5', 2);
    folder.put('tenth.xml', onePart([tenth]));
    const mark = ['mark', 'tenth.xml', '-o', 'shared.xml', '--span', '8th', '--json', '--force'];
    const codes = async (...more: string[]) => {
      const run = await handline([...mark, ...more], folder.path);
      const [file] = JSON.parse(run.stdout.toString()).files;
      return [file.warnings.map(({ code }: Warning) => code), file.lines[0].shared];
    };
    expect(await codes()).toEqual([['UNPLAYABLE'], undefined]);
    const shared = { measure: '1', beat: 1, takenBy: 'left', keys: [60] };
    expect(await codes('--share-hands', '--strict')).toEqual([[], [expect.objectContaining(shared)]]);
    expect(readFileSync(folder.at('shared.xml'), 'utf8')).toContain('>l.h.</words>');
  });

  test('clear has its own: marks that were changed, and an archive that lost its compression', async () => {
    folder.put('ours.xml', changed);
    folder.put('dropped.mxl', zipSync(dropped));
    folder.put('lost.xml', lost);
    const run = await handline(
      ['clear', 'ours.xml', 'dropped.mxl', 'lost.xml', '--out-dir', 'out', '--json'],
      folder.path,
    );
    expect(run.code).toBe(5);
    expect(run.stderr.split('\n')).toEqual([
      'handline: ours.xml: cleared, but left in 1 place what was changed since it was marked; --json lists every one',
      'handline: lost.xml: cleared, but could not put back 1 of your own digits; --json lists every one',
      '',
    ]);
    const { files } = JSON.parse(run.stdout.toString()) as { files: { warnings: Warning[] }[] };
    expect(files.map(({ warnings }) => warnings.map(({ code, place }) => [code, place.file]))).toEqual([
      [['NOT_OURS', 'ours.xml']],
      [['REPACKED', 'dropped.mxl']],
      [['DIGIT_LOST', 'lost.xml']],
    ]);
  });

  test('every code has its row in the README', () => {
    const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
    for (const code of [...Object.values(WARNED).map(([one]) => one), 'REPACKED']) {
      expect(readme).toContain(`| \`${code}\` |`);
    }
  });
});
