import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { annotate, clear, HandlineError, type NoteDigit, readLines, setDigits } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { schema } from '../conformance/schema.js';
import { bytesOf, READ_FIXTURES, ROOT } from '../musicxml/read-source.js';

const SAMPLES: readonly (readonly [string, Uint8Array])[] = [
  ['the demo', new Uint8Array(readFileSync(join(ROOT, 'fixtures/demo/kelp-street-tunes.musicxml')))],
  ['schumann', new Uint8Array(readFileSync(join(ROOT, 'fixtures/scores/schumann-op15-1.musicxml')))],
  ...READ_FIXTURES.map((name) => [name, bytesOf(name)] as const),
];

/** Every struck note head by part and id, with its finger. */
function fixedOf(bytes: Uint8Array): Map<string, number | undefined> {
  const fixed = new Map<string, number | undefined>();
  for (const { line } of readLines(bytes).lines)
    for (const { struck } of line.slices)
      for (const key of struck) for (const id of key.notes) fixed.set(`${line.part} ${id}`, key.fixed);
  return fixed;
}

/** A text without its digits, and without what may hold nothing else. */
function bare(bytes: Uint8Array): string {
  return decode(bytes, DEFAULT_LIMITS)
    .text.replaceAll(/<fingering[^>]*>[^<]*<\/fingering>/g, '')
    .replaceAll(/\s*<technical>\s*<\/technical>/g, '')
    .replaceAll(/\s*<notations>\s*<\/notations>/g, '')
    .replaceAll(/\s+(?=<)/g, '');
}

describe.each(SAMPLES)('digits of the user in %s', (_, bytes) => {
  const { report } = annotate(bytes);
  const heads = report.lines.flatMap(({ slices }) => slices.flatMap(({ notes }) => notes));
  const digits: NoteDigit[] = heads
    .filter((_, nth) => nth % 3 === 1)
    .map(({ offset }, nth) => ({ offset, finger: ((nth % 5) + 1) as NoteDigit['finger'] }));

  it('are read as the file’s own, and nothing else is changed', () => {
    const { output } = setDigits(bytes, digits);
    const before = fixedOf(bytes);
    const after = fixedOf(output);
    expect([...after.keys()]).toEqual([...before.keys()]);
    const { lines } = annotate(output, { existing: 'keep' }).report;
    const given = lines.flatMap(({ slices }) =>
      slices.flatMap(({ notes }) => notes.filter(({ digit }) => digit === 'given')),
    );
    expect(given.length).toBeGreaterThanOrEqual(digits.length);
    expect(bare(output)).toBe(bare(bytes));
    expect(Buffer.compare(clear(output).output, output)).toBe(0);
    expect(Buffer.compare(clear(annotate(output).output).output, output)).toBe(0);
  });

  it('replace one another, and none leaves the score as it is', () => {
    expect(Buffer.compare(setDigits(bytes, []).output, bytes)).toBe(0);
    const marked = annotate(bytes).output;
    expect(Buffer.compare(setDigits(marked, digits).output, setDigits(bytes, digits).output)).toBe(0);
  });
});

describe('one digit', () => {
  const note = (own = '', chord = '') =>
    `<note>${chord}<pitch><step>${chord ? 'E' : 'C'}</step><octave>4</octave></pitch><duration>4</duration><voice>1</voice><type>whole</type>${own}</note>`;
  const score = (notes: string) =>
    `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1"><measure number="1"><attributes><divisions>1</divisions></attributes>${notes}</measure></part></score-partwise>`;
  const fingering = (text: string, attributes = '') =>
    `<notations><technical><fingering${attributes}>${text}</fingering></technical></notations>`;
  const set = (text: string, nth: number, finger: NoteDigit['finger']) => {
    const offset = [...text.matchAll(/<note>/g)][nth]!.index;
    return setDigits(text, [{ offset, finger }]).output;
  };
  const validate = schema();

  it('takes the place of the one that is there, and of the change after it', () => {
    expect(set(score(note(fingering('3'))), 0, 2)).toBe(score(note(fingering('2'))));
    expect(set(score(note(fingering('4-5'))), 0, 2)).toBe(score(note(fingering('2'))));
    const two = `<notations><technical><fingering>4</fingering>\n<fingering substitution="yes">5</fingering></technical></notations>`;
    expect(set(score(note(two)), 0, 1)).toBe(score(note(fingering('1'))));
  });

  it('leaves second choices and words as they are', () => {
    const own = `<notations><technical><fingering>m.d.</fingering><fingering>4</fingering><fingering alternate="yes">3</fingering></technical></notations>`;
    expect(set(score(note(own)), 0, 5)).toBe(score(note(own.replace('4', '5'))));
  });

  it('goes into the notations of a note without one', () => {
    const made = set(score(note()), 0, 3);
    expect(made).toContain('<fingering placement="above">3</fingering>');
    expect(validate(made)).toEqual([]);
    const slurred = set(score(note('<notations><slur type="start" number="1"/></notations>')), 0, 3);
    expect(slurred.match(/<notations>/g)).toHaveLength(1);
    expect(validate(slurred)).toEqual([]);
  });

  it('shares out a stack that speaks of the whole chord', () => {
    const stacked = score(note(fingering('3 1')) + note('', '<chord/>'));
    const made = set(stacked, 1, 4);
    const fingers = readLines(made).lines[0]!.line.slices[0]!.struck.map(({ fixed }) => fixed);
    expect(fingers).toEqual([1, 4]);
    expect(made.match(/<fingering/g)).toHaveLength(2);
  });

  it('is refused where there is no note, or no such finger', () => {
    const text = score(note());
    const refused = (digit: NoteDigit) => {
      try {
        setDigits(text, [digit]);
      } catch (error) {
        return error instanceof HandlineError ? error.code : 'another error';
      }
      return 'nothing';
    };
    expect(refused({ offset: 1, finger: 1 })).toBe('OPTION');
    expect(refused({ offset: text.indexOf('<note>'), finger: 6 as 5 })).toBe('OPTION');
  });
});
