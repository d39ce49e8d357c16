import { annotate, clear, HandlineError, type Limits } from '@handline/core';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { attributes, note, onePart } from './read-source.js';

const NOTES = 40;
const music = attributes() + note('C5', 4).repeat(NOTES);
const DEPTH = 60;
/** Elements of nobody's around one element deep inside. */
const deep = onePart([music + '<x>'.repeat(DEPTH) + '</x>'.repeat(DEPTH)]);
const container = '<container><rootfiles><rootfile full-path="s.xml"/></rootfiles></container>';
const odd = onePart([`<!-- \u00e9\u20ac\u{1d11e} -->${music}`]);
const bytesOf = (text: string) => new TextEncoder().encode(text);
/** White space compresses a thousandfold. */
const archive = zipSync({
  'META-INF/container.xml': strToU8(container),
  's.xml': strToU8(onePart([music + ' '.repeat(2_000_000)])),
});

/** The code with which an input is refused under some limits by both functions; undefined where it is taken. */
function codeOf(input: string | Uint8Array, limits: Partial<Limits>): string | undefined {
  const codes = [() => annotate(input, { limits }), () => clear(input, { limits })].map((act) => {
    try {
      act();
      return undefined;
    } catch (error) {
      if (!(error instanceof HandlineError)) throw error;
      return error.code;
    }
  });
  // `clear` counts no notes.
  return codes[0] === codes[1] || limits.maxNotes !== undefined ? codes[0] : codes.join();
}

const markedLength = (text: string) => bytesOf(annotate(text).output).length;

describe('limits', () => {
  it.each<[keyof Limits, string | Uint8Array, below: number, enough: number]>([
    ['maxNotes', onePart([music]), NOTES - 1, NOTES],
    // Root, part and measure stand around them.
    ['maxDepth', deep, DEPTH + 2, DEPTH + 3],
    // What is marked must not be longer either, so that it can be cleared again.
    ['maxBytes', onePart([music]), onePart([music]).length - 1, markedLength(onePart([music]))],
    // As bytes and as text alike: \u00e9 has two bytes, \u20ac three, the clef four.
    ['maxBytes', odd, bytesOf(odd).length - 1, markedLength(odd)],
    ['maxBytes', bytesOf(odd), bytesOf(odd).length - 1, markedLength(odd)],
    ['maxRatio', archive, 100, 2000],
    ['maxBytes', archive, 1_900_000, 2_100_000],
  ])('%s refuses what lies beyond it and takes what does not', (name, input, below, enough) => {
    const raised = { maxRatio: 2000 };
    expect(codeOf(input, { ...raised, [name]: below })).toBe('LIMIT');
    expect(codeOf(input, { ...raised, [name]: enough })).toBe(undefined);
  });

  it('refuse to mark what could not be cleared again', () => {
    const text = onePart([music]);
    const maxBytes = markedLength(text) - 1;
    expect(codeOf(text, { maxBytes })).toBe('LIMIT,');
    const { output } = annotate(text);
    expect(clear(output, { limits: { maxBytes: maxBytes + 1 } }).output).toBe(text);
  });

  it('by default refuse to mark and to clear more than 128 MiB', () => {
    expect(codeOf(new Uint8Array(128 * 1024 * 1024 + 1), {})).toBe('LIMIT');
  });

  it('by default refuse the archive and an endless nest', () => {
    expect(codeOf(archive, {})).toBe('LIMIT');
    expect(codeOf(deep.replace('<x>', '<x>'.repeat(100_000)), {})).toBe('LIMIT');
  });

  it.each<Partial<Record<string, number>>>([
    { maxDepth: 0 },
    { maxDepth: -1 },
    { maxNotes: Number.NaN },
    { maxDepth: 1001 },
    { maxBytes: 500_000_001 },
    { maxBytes: Number.POSITIVE_INFINITY },
    { maxNotes: '7' as unknown as number },
    { maxFun: 1 },
    { constructor: 1 },
  ])('%o is no limit', (limits) => {
    expect(codeOf(onePart([music]), limits as Partial<Limits>)).toBe('OPTION');
  });

  it('the deepest nest that can be allowed is walked without end of the stack', () => {
    const depth = 1000 - 3;
    const text = onePart([music + '<x>'.repeat(depth) + '</x>'.repeat(depth)]);
    const limits = { maxDepth: 1000 };
    const { output } = annotate(text, { limits, existing: 'replace' });
    expect(output).not.toBe(text);
    expect(clear(output, { limits }).output).toBe(text);
  });
});
