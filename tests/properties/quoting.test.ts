import { annotate, clear } from '@handline/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rounds } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';

const reference = (char: string) => `&#${char.codePointAt(0)};`;
const half = (value: string) => Math.ceil(value.length / 2);

/** Ways in which XML may write the same value. */
const VALUES: readonly ((value: string) => string)[] = [
  (value) => value,
  (value) => `<![CDATA[${value}]]>`,
  (value) => `${value.slice(0, half(value))}<![CDATA[${value.slice(half(value))}]]>`,
  (value) => [...value].map(reference).join(''),
  (value) => `&#x${value.charCodeAt(0).toString(16)};${value.slice(1)}`,
  (value) => `<!-- 9 -->${value}<!-- </note> -->`,
  (value) => `${value.slice(0, half(value))}<!-- 7 --><?p?><?ab?><?p <step>?>${value.slice(half(value))}`,
  (value) => `\n\t${value} `,
];
const ATTRIBUTES: readonly ((name: string, value: string) => string)[] = [
  (name, value) => ` ${name}="${value}"`,
  (name, value) => `\n${name} = '${value}'`,
  (name, value) => ` ${name}="${[...value].map(reference).join('')}"`,
  (name, value) => ` ${name}='${value}' x-${name}='a>b"/>'`,
];
/** Elements whose text decides who plays what when; their values are plain in generated scores. */
const LEAF =
  /(<(step|octave|alter|duration|voice|staff|divisions|sign|line|beats|beat-type|staves|type|fingering|actual-notes)\b[^<>]*>)(\w+)(<\/\2>)/g;
const ATTRIBUTE =
  /(?<=<(?:tie|tied|part|measure|score-part|clef|fingering)\b[^<>]*) ([a-z]+)=["']([\w-]+)["']/g;

describe('values in CDATA sections, as references, between comments and in odd attributes', () => {
  it('are read as what they are, and come back as they were', () => {
    const draws = rounds(20, 250);
    let digits = 0;
    const ways = fc.array(fc.nat(99), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(scoreModel, ways, fc.constantFrom('keep', 'replace'), (model, drawn, existing) => {
        const plain = toXml({ ...model, style: { ...model.style, noise: [0] } });
        let at = 0;
        const pick = <T>(list: readonly T[]): T =>
          list[(drawn[at++ % drawn.length] as number) % list.length] as T;
        const text = plain
          .replaceAll(ATTRIBUTE, (_, name: string, value: string) => pick(ATTRIBUTES)(name, value))
          .replaceAll(
            LEAF,
            (_, open: string, __, value: string, end: string) => open + pick(VALUES)(value) + end,
          );
        const options = { existing, density: 'every' } as const;
        const [expected, found] = [annotate(plain, options), annotate(text, options)];
        // Offsets differ, the music does not.
        const music = ({ report }: typeof found) =>
          report.lines.map(({ part, hand, fingered, kept, cues, movement, usage, slices }) => ({
            part,
            hand,
            fingered,
            kept,
            cues,
            movement,
            usage,
            fingers: slices.map(({ fingers }) => fingers),
          }));
        expect(music(found)).toEqual(music(expected));
        expect(found.report.warnings.map(({ code }) => code)).toEqual(
          expected.report.warnings.map(({ code }) => code),
        );
        expect(clear(found.output)).toEqual({ output: text, warnings: [] });
        digits += music(found).reduce((sum, { fingered }) => sum + fingered, 0);
      }),
      draws,
    );
    expect(digits).toBeGreaterThan(3 * draws.numRuns);
  });
});
