import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { annotate, clear, HandlineError, type Place } from '@handline/core';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type AnnotateOptions, LAYERS } from '#core/options/options.js';
import type { ErrorCode } from '#core/score/errors.js';
import { attributes, note, onePart } from '../musicxml/read-source.js';

const CORE = fileURLToPath(new URL('../../packages/core/src/', import.meta.url));
const GOOD = onePart([attributes() + note('C5', 4), note('D5', 4)]);
/** The same on lines of its own from its third line on. */
const lines = (text: string) => `<!-- 1 -->\n<!-- 2 -->\n${text.replaceAll('><', '>\n<')}`;
const huge = lines(GOOD.replace(/(<step>D.*?<duration>)4/, '$1999999999'));
const lineOf = (text: string, part: string) => text.slice(0, text.indexOf(part)).split('\n').length;

type Case = readonly [ErrorCode, string | Uint8Array, Omit<Place, 'file'>, AnnotateOptions?];

const CASES: readonly Case[] = [
  ['EMPTY', ' \n', {}],
  ['NOT_XML', '<a>\n <b>\n</a>', { line: 3, column: 1 }],
  ['NOT_XML', '<a>\r\n <b c=1/></a>', { line: 2, column: 7 }],
  ['NOT_XML', '<a>\r &x;</a>', { line: 2, column: 2 }],
  ['NOT_MUSICXML', '<opus/>', {}],
  ['ENCODING', Buffer.from('<a>\n\xff</a>', 'latin1'), { line: 2 }],
  ['ARCHIVE', zipSync({ 'a.xml': strToU8(GOOD) }), {}],
  ['UNSAFE', '<!DOCTYPE a [\n<!ENTITY e SYSTEM "x">]><a/>', { line: 2, column: 1 }],
  ['LIMIT', '<a>\n<b>\n<c></c></b></a>', { line: 3, column: 1 }, { limits: { maxDepth: 2 } }],
  ['LIMIT', GOOD, {}, { limits: { maxNotes: 1 } }],
  ['NUMBER', huge, { part: 'P1', measure: '2', line: lineOf(huge, '<step>D') - 2, column: 1 }],
  ['OPTION', GOOD, {}, { measures: { from: '7', to: '9' } }],
  [
    'WARNING_AS_ERROR',
    lines(onePart([attributes() + note('C4', 0) + note('C5', 4)])),
    { part: 'P1', measure: '1', line: expect.any(Number) as unknown as number, column: 1 },
    { strict: true },
  ],
];

function thrown(act: () => unknown): HandlineError {
  try {
    act();
  } catch (error) {
    if (error instanceof HandlineError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

it.each([
  [{ layers: ['dept'] }, { name: 'layers', given: 'dept', allowed: LAYERS }],
  [{ limits: { maxDepth: 0 } }, { name: 'limits.maxDepth' }],
  [{ parts: ['p1'] }, { name: 'parts', given: 'p1', allowed: ['P1'] }],
  [{ measures: { from: '7', to: '7' } }, { name: 'measures' }],
  [{ wording: { inn: 'in' } }, expect.objectContaining({ name: 'wording', given: 'inn' })],
])('the option that is wrong is told as data, too: %j', (options, option) => {
  const error = thrown(() => annotate(GOOD, { ...(options as object), file: 'a.xml' }));
  expect(error).toMatchObject({ code: 'OPTION', option });
  expect(error.message.replace(/^a\.xml: /, '')).toMatch(new RegExp(`^${error.option!.name}: `));
});

describe('every refusal', () => {
  it.each(CASES.map(([code, input, place, options = {}]) => [code, input, place, options] as const))(
    '%s is of one class, in one line, and tells the place',
    (code, input, place, options) => {
      const error = thrown(() => annotate(input, { ...options, file: 'a.xml' }));
      expect(error.code).toBe(code);
      expect(error.place).toEqual({ file: 'a.xml', ...place });
      expect(error.name).toBe('HandlineError');
      const where = Object.entries(place).map(([kind]) => `${kind} [^,:]+`);
      const head = ['a\\.xml', ...(where.length > 0 ? [where.join(', ')] : [])].join(': ');
      expect(error.message).toMatch(new RegExp(`^${head}: [^\\n]{8,}$`));
    },
  );

  it('has a case here for every code', () => {
    const [, union = ''] =
      /type ErrorCode =([^;]*);/.exec(readFileSync(`${CORE}score/errors.ts`, 'utf8')) ?? [];
    const codes = [...union.matchAll(/'(\w+)'/g)].map(([, code]) => code as ErrorCode);
    expect([...new Set(CASES.map(([code]) => code))].sort()).toEqual(codes.sort());
  });

  it('by clear is the same where it does not read the music', () => {
    // Up to the limits, which the options of the other cases set.
    for (const [code, input] of CASES.slice(0, 8)) expect(thrown(() => clear(input)).code).toBe(code);
  });
});

it('core reads no file and opens no connection, so that nothing a score names can be fetched', () => {
  const sources = readdirSync(CORE, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  expect(sources.length).toBeGreaterThan(80);
  for (const name of sources) {
    const text = readFileSync(`${CORE}${name}`, 'utf8');
    const imported = [...text.matchAll(/^(?:import|export|\}) .*?from '([^']+)';$/gm)].map(
      ([, path]) => path,
    );
    expect(text).not.toMatch(/\b(?:import|require)\(/);
    const outside = imported.filter((path) => !path?.startsWith('.'));
    expect({
      name,
      outside: outside.filter((path) => !/^(?:fast-xml-parser|#xmlbuilder2|fflate)$/.test(`${path}`)),
    }).toEqual({ name, outside: [] });
    expect(text).not.toMatch(
      /\b(?:fetch|XMLHttpRequest|WebSocket|importScripts|process|globalThis|eval|Function)\s*[.(]/,
    );
  }
});

it('a DTD that a score names is never followed', () => {
  for (const id of ['SYSTEM "file:///etc/passwd"', 'PUBLIC "p" "http://localhost:1/a.dtd"']) {
    const text = `<!DOCTYPE score-partwise ${id}>${GOOD}`;
    const { output } = annotate(text);
    expect(output).not.toBe(text);
    expect(clear(output).output).toBe(text);
  }
});
