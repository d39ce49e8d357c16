import { annotate, clear } from '@handline/core';
import fc from 'fast-check';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { AnnotateOptions } from '#core/options/options.js';
import { FORMS, type Form } from '../musicxml/forms.js';
import { rounds } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';

const same = (a: Uint8Array, b: Uint8Array) => Buffer.compare(a, b) === 0;

/** Other than the text's own: its line ends one after another as drawn. */
const ends = fc.array(fc.constantFrom('\n', '\r\n', '\r'), { minLength: 1, maxLength: 9 });

function withEnds(text: string, drawn: readonly string[]): string {
  let at = 0;
  return text.replaceAll(/\r\n?|\n/g, () => drawn[at++ % drawn.length] as string);
}

/** A generated score as a program that writes this form would declare it, with a letter beyond ASCII where it has one. */
function declaredIn(form: Form, text: string): string {
  const letter = ['\u{1d11e}', '\u00e9', 'e'].find((one) => (one.codePointAt(0) as number) <= form.highest);
  const bare = text.replace(/^\ufeff/, '').replace(/^<\?xml[^>]*\?>/, '');
  return `<?xml version="1.0" encoding="${form.declared}"?><!-- ${letter} -->${bare}`;
}

function written(form: Form, text: string, zipped: boolean): Uint8Array {
  const bytes = new Uint8Array([...form.bom, ...form.encode(text)]);
  if (!zipped) return bytes;
  const container = '<container><rootfiles><rootfile full-path="s.xml"/></rootfiles></container>';
  return zipSync({ 'META-INF/container.xml': strToU8(container), 's.xml': bytes });
}

function words(element: XmlElement): string[] {
  if (/^(?:credit-)?words$/.test(element.name)) return [element.text.replaceAll(/\r\n?/g, '\n')];
  return element.children.flatMap(words);
}

const OPTIONS: readonly AnnotateOptions[] = [
  { language: 'fr', legend: true, density: 'every' },
  { language: 'de', existing: 'replace', layers: ['depth', 'carry', 'roll'], density: 'every' },
];

describe('scores in every encoding, plain and compressed, with line ends of all kinds', () => {
  it.each(FORMS)(
    'are marked, marked anew and cleared to the same bytes, as in a text: $declared $bom',
    (form) => {
      let marked = 0;
      fc.assert(
        fc.property(scoreModel, fc.boolean(), ends, (model, zipped, drawn) => {
          const text = declaredIn(form, withEnds(toXml(model), drawn));
          const original = written(form, text, zipped);
          let last = original;
          for (const options of OPTIONS) {
            const output = annotate(original, options).output;
            if (last !== original) expect(same(annotate(last, options).output, output)).toBe(true);
            last = output;
            const inside = decode(last, DEFAULT_LIMITS).text;
            const expected = annotate(text, options).output;
            expect(words(parseTree(inside, DEFAULT_LIMITS))).toEqual(
              words(parseTree(expected, DEFAULT_LIMITS)),
            );
            const cleared = clear(last);
            expect(cleared.warnings).toEqual([]);
            expect(same(cleared.output, original)).toBe(true);
          }
          if (!same(last, original)) marked++;
        }),
        rounds(4, 25),
      );
      expect(marked).toBeGreaterThan(0);
    },
  );

  it('a mark breaks the line as the line before it does', () => {
    fc.assert(
      fc.property(scoreModel, ends, (model, drawn) => {
        const style = { ...model.style, newline: '\n', notesInline: false, noise: [0] } as const;
        const text = withEnds(toXml({ ...model, style }), drawn);
        const output = annotate(text, { density: 'every' }).output;
        for (const [mark, end] of output.matchAll(
          /(\r\n|\r|\n)[ \t]*<\?handline (?:digit|cue)[^>]*><(?:notations|direction)[\s\S]*?<\/(?:notations|direction)>/g,
        )) {
          expect(new Set(mark.match(/\r\n|\r|\n/g))).toEqual(new Set([end]));
        }
        expect(clear(output).output).toBe(text);
      }),
      rounds(15, 300),
    );
  });
});
