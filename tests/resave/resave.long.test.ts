import { readFileSync } from 'node:fs';
import { type AnnotateOptions, annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { asPartwise } from '../conformance/outside-reader.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { type Facts, factsOf, surplus, textOf } from './facts.js';
import { museScore, music21, type Program } from './programs.js';

/** Editions that go through the programs, which take seconds each. */
const EDITIONS = 24;
const KINDS = ['notes', 'digits', 'words', 'dashes'] as const;

const WAYS: Readonly<Record<string, AnnotateOptions>> = {
  plain: {},
  'all that can be printed': { existing: 'replace', alternatives: 1, legend: true, density: 'every' },
  'digits alone, beside those that are there': { existing: 'ignore', layers: [] },
};

function scores(): string[] {
  const all = editions();
  const step = Math.max(1, all.length / EDITIONS);
  const some = all.filter((_, at) => Math.floor(at / step) > Math.floor((at - 1) / step));
  return [...TUNES.map((name) => `${FIXTURES}${name}`), ...some];
}

/** As UTF-8 and partwise, so that every program reads it. */
function plainText(path: string): string {
  const text = textOf(new Uint8Array(readFileSync(path))).replace(/^\ufeff/, '');
  return asPartwise(text).replace(/^(<\?xml[^>]*encoding=)(["'])[^"']*\2/, '$1$2UTF-8$2');
}

interface Count {
  notes: number;
  digits: number;
  words: number;
  dashes: number;
  lost: string[];
  left: string[];
  back: number;
  again: string[];
  warnings: number;
}

/** What is there in one but not in the other, either way. */
function differences(a: Facts, b: Facts): string[] {
  return KINDS.flatMap((kind) => [
    ...surplus(a[kind], b[kind]).map((fact) => `+ ${kind} ${fact}`),
    ...surplus(b[kind], a[kind]).map((fact) => `- ${kind} ${fact}`),
  ]);
}

/** Marks, saves, clears and marks again; everything is compared with what the program makes of the unmarked score. */
function goRound(program: Program, path: string, options: AnnotateOptions, count: Count): void {
  const original = plainText(path);
  const saved = program.save(
    new Map([
      ['unmarked', original],
      ['marked', annotate(original, options).output],
    ]),
  );
  const [unmarked, marked] = [saved.get('unmarked')!, saved.get('marked')!];
  const [before, after] = [factsOf(unmarked), factsOf(marked)];
  count.notes += before.notes.length;
  count.digits += after.digits.length - before.digits.length;
  count.words += after.words.length - before.words.length;
  count.dashes += (after.dashes.length - before.dashes.length) / 2;
  expect(after.notes).toEqual(before.notes);

  const { output, warnings } = clear(marked);
  count.warnings += warnings.length;
  const cleared = factsOf(output);
  for (const kind of KINDS) {
    for (const fact of surplus(before[kind], cleared[kind])) count.lost.push(`${path} ${kind} ${fact}`);
    const more = surplus(cleared[kind], before[kind]);
    // Of several digits at a note the program has kept one of the user's in the unmarked score; all are back.
    const theirs = kind === 'digits' ? surplus(factsOf(original).digits, before.digits) : [];
    const ours = surplus(more, theirs);
    count.back += more.length - ours.length;
    for (const fact of ours) count.left.push(`${path} ${kind} ${fact}`);
  }

  const again = factsOf(annotate(marked, options).output);
  const once = factsOf(annotate(output, options).output);
  for (const one of differences(again, once)) count.again.push(`${path} ${one}`);
  for (const one of differences(factsOf(clear(annotate(marked, options).output).output), cleared)) {
    count.again.push(`${path} ${one}`);
  }
}

function goRoundAll(program: Program, options: AnnotateOptions, paths: readonly string[]): Count {
  const count: Count = {
    notes: 0,
    digits: 0,
    words: 0,
    dashes: 0,
    lost: [],
    left: [],
    back: 0,
    again: [],
    warnings: 0,
  };
  for (const path of paths) goRound(program, path, options, count);
  return count;
}

function told(program: Program, way: string, files: number, count: Count): string {
  return (
    `${program.name}, ${way}: ${files} scores, ${count.notes} notes, ${count.digits} digits, ${count.words} words and ${count.dashes} dashes of ours; ` +
    `after clear: ${count.lost.length} of the user's lost, ${count.left.length} of ours left, ${count.back} of the user's ` +
    `back that the program hides, ${count.warnings} warnings; marked again: ${count.again.length} differences`
  );
}

describe.skipIf(museScore.missing !== undefined)('saved by MuseScore 3', () => {
  it.each(Object.entries(WAYS))(
    '%s: clear takes all of ours and nothing else, mark doubles nothing',
    (way, options) => {
      const paths = scores();
      const count = goRoundAll(museScore, options, paths);
      console.log(told(museScore, way, paths.length, count));
      expect(count).toMatchObject({ lost: [], left: [], again: [], warnings: 0 });
      expect(count.digits).toBeGreaterThan(700);
    },
  );
});

describe.skipIf(music21.missing !== undefined)('saved by music21', () => {
  // It moves digits between the notes of a chord, in unmarked scores as well, and does not read these.
  const unread = /imperfect|timewise|transposed|directions|cross-staff/;
  it.each(Object.entries(WAYS))('%s: clear takes all of ours, mark doubles nothing', (way, options) => {
    const paths = scores().filter((path) => !unread.test(path));
    const count = goRoundAll(music21, options, paths);
    console.log(told(music21, way, paths.length, count));
    const texts = (facts: readonly string[]) => facts.map((fact) => fact.split(' ').at(-1)).sort();
    expect(texts(surplus(count.left, count.lost))).toEqual(texts(surplus(count.lost, count.left)));
    expect(count.again).toEqual([]);
  });
});

for (const { missing } of [museScore, music21]) if (missing !== undefined) console.log(missing);
