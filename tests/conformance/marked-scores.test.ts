import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { clear, mark, read } from '../musicxml/write-source.js';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { type MarkPlan, markPlan, marksOf } from '../properties/marks.js';
import { RUNS } from '../rounds.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { schema, type Validate } from './schema.js';

const EVERYTHING: MarkPlan = {
  fingers: [1, 2, 3, 4, 5],
  kinds: [6, 1, 2, 1, 4, 1, 5, 3],
  texts: ['in', 'out & over', 'thumb'],
  replaceDigits: false,
  legend: 'in: towards the fallboard\nout: away from it',
};

/** The score's text, declared in the encoding in which the validator gets it. */
function textOf(path: string): string {
  const { text } = decode(readFileSync(path), DEFAULT_LIMITS);
  return text.replace(/^(<\?xml[^>]*encoding=)(["'])[^"']*\2/, '$1$2UTF-8$2');
}

describe('MusicXML 4.0 schema', () => {
  let complaints: Validate;
  beforeAll(() => {
    complaints = schema();
  });

  /** Marks a file in both ways and expects the same complaints as before, most often none. */
  function expectNoWorse(path: string): 'valid' | 'invalid' {
    const text = textOf(path);
    const before = complaints(text);
    const { score } = read(text);
    for (const replaceDigits of [false, true]) {
      const marked = mark(text, marksOf({ ...EVERYTHING, replaceDigits }, score));
      expect(marked.length).toBeGreaterThan(text.length);
      expect(complaints(marked)).toEqual(before);
      expect(clear(marked).text).toBe(text);
    }
    return before.length === 0 ? 'valid' : 'invalid';
  }

  it('complains about what is wrong', () => {
    expect(complaints('<score-partwise><part-list/></score-partwise>').length).toBeGreaterThan(0);
  });

  it('marked fixtures are as valid as before', () => {
    const paths = TUNES.map((name) => `${FIXTURES}${name}`);
    const kinds = paths.map(expectNoWorse);
    console.log(
      `fixtures: ${kinds.filter((kind) => kind === 'valid').length} of ${paths.length} valid, before and after`,
    );
    expect(kinds).toContain('valid');
  });

  it('marked editions are as valid as before', () => {
    const paths = editions(2);
    const kinds = paths.map(expectNoWorse);
    console.log(
      `editions: ${kinds.filter((kind) => kind === 'valid').length} of ${paths.length} valid, before and after`,
    );
    expect(kinds).toContain('valid');
  });

  it('generated scores of all versions are valid before and after', () => {
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const text = toXml(model);
        expect(complaints(text)).toEqual([]);
        expect(complaints(mark(text, marksOf(plan, read(text).score)))).toEqual([]);
      }),
      RUNS,
    );
  });
});
