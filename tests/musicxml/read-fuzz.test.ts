import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { decode } from '#core/musicxml/bytes/decode.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { HandlineError } from '#core/score/errors.js';
import { rounds } from '../rounds.js';
import { bytesOf, READ_FIXTURES, readText } from './read-source.js';

const TEXTS = READ_FIXTURES.map((name) => decode(bytesOf(name), DEFAULT_LIMITS).text);
const VALUES = [
  '',
  '-1',
  '0',
  '0.333',
  '1e9',
  'NaN',
  '99999',
  '999999999',
  '1048573',
  '-7.5',
  'x',
  '\u0661',
  '1 2',
  '&#49;',
];
const ELEMENTS = [
  '<chord/>',
  '<grace/>',
  '<cue/>',
  '<rest/>',
  '<backup><duration>3</duration></backup>',
  '<forward><duration>-2</duration></forward>',
  '<staff>9</staff>',
  '<staves>0</staves>',
  '<staves>1000000000</staves>',
  '<attributes><divisions>999983</divisions></attributes>',
  '<tie type="stop"/>',
  '<note/>',
  '<note><pitch/></note>',
  '<pitch><step>C</step><octave>4</octave></pitch>',
  '<barline><repeat direction="backward" times="1000000"/></barline>',
  '<sound dacapo="yes" tempo="0"/>',
  '<direction><direction-type><metronome><beat-unit>x</beat-unit><per-minute>0</per-minute></metronome></direction-type></direction>',
];

interface Change {
  readonly kind: 'value' | 'drop' | 'add' | 'twice';
  readonly at: number;
  readonly value: string;
  readonly element: string;
}

/** Changes that keep the text well-formed, so that the reading itself is put to the test. */
function mutate(text: string, { kind, at, value, element }: Change): string {
  const leaf = /<([a-z-]+)(?: [^<>]*)?>[^<]*<\/\1>|<[a-z-]+(?: [^<>]*)?\/>/g;
  const found = [...text.matchAll(kind === 'value' ? /(?<=>)[^<>]*[\dA-Za-z][^<>]*(?=<\/)/g : leaf)];
  const match = found[Math.floor(at * found.length)];
  if (match === undefined) return text;
  const [before, after] = [text.slice(0, match.index), text.slice(match.index + match[0].length)];
  if (kind === 'value') return before + value + after;
  if (kind === 'drop') return before + after;
  return before + (kind === 'add' ? element + match[0] : match[0] + match[0]) + after;
}

const change: fc.Arbitrary<Change> = fc.record({
  kind: fc.constantFrom('value', 'value', 'drop', 'add', 'twice'),
  at: fc.nat(9999).map((tenThousandths) => tenThousandths / 10_000),
  value: fc.constantFrom(...VALUES),
  element: fc.constantFrom(...ELEMENTS),
});

describe('odd but well-formed scores', () => {
  it('are read into finite numbers, or refused by a typed error in one line', () => {
    const draws = rounds(300, 5000);
    let [read, refused] = [0, 0];
    fc.assert(
      fc.property(
        fc.constantFrom(...TEXTS),
        fc.array(change, { minLength: 1, maxLength: 6 }),
        (source, changes) => {
          const text = changes.reduce(mutate, source);
          try {
            const { score } = readText(text, 'a.xml');
            const built = buildLines(score, { parts: score.parts.map((part) => part.id) });
            JSON.stringify([score, built], (_, value) => {
              if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
              return value;
            });
            for (const part of score.parts) {
              for (const note of part.notes)
                expect(note.key >= 21 && note.key <= 108 && note.duration.num >= 0).toBe(true);
            }
            for (const { slices } of built.lines)
              for (const slice of slices) expect(slice.seconds).toBeGreaterThanOrEqual(0);
            read += 1;
          } catch (error) {
            if (!(error instanceof HandlineError)) throw error;
            expect(error.message).toMatch(/^a\.xml: [^\n]+$/);
            refused += 1;
          }
        },
      ),
      draws,
    );
    console.log(`odd scores: ${read} read, ${refused} refused`);
    expect(Math.min(read, refused)).toBeGreaterThan(draws.numRuns / 100);
  });
});
