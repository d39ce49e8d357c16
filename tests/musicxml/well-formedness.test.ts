import fc from 'fast-check';
import { ParseOption, XmlDocument } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { WellFormedness } from '#core/musicxml/xml/check/well-formedness.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { HandlineError } from '#core/score/errors.js';
import { bytesOf } from './read-source.js';

const SOURCES = ['graces.musicxml', 'minified.musicxml', 'doctype.musicxml', 'timewise.musicxml'].map(
  (name) => decode(bytesOf(name), DEFAULT_LIMITS).text.replace(/<\?xml[^>]*\?>/, ''),
);
const PIECES = [
  '\n',
  'y z',
  '<!-- c -->',
  '<b/>',
  '<b c="&gt;">d</b >',
  '<![CDATA[&<]]>',
  '<?p q?>',

  '<',
  '>',
  '/',
  '"',
  "'",
  '=',
  '&',
  ';',
  ' ',
  '--',
  '<!--',
  '-->',
  '<![CDATA[',
  ']]>',
  '<?',
  '?>',
  '</note>',
  '<note>',
  '<a b="',
  'x',
  '\0',
  '<!DOCTYPE a>',
  '&amp;',
  '&#0;',
  '&#x1F3B9;',
  '&#xD800;',
];

type Change = readonly [at: number, cut: number, piece: string];

function mutate(text: string, changes: readonly Change[]): string {
  return changes.reduce((result, [at, cut, piece]) => {
    const from = Math.floor(at * result.length);
    return result.slice(0, from) + piece + result.slice(from + cut);
  }, text);
}

/** What libxml2 says, which follows the standard; namespaces and entities in attributes are not our business. */
function libxmlAccepts(text: string): boolean {
  try {
    XmlDocument.fromString(text, {
      option: ParseOption.XML_PARSE_NONET | ParseOption.XML_PARSE_NOERROR,
    }).dispose();
    return true;
  } catch {
    return false;
  }
}

function weAccept(text: string): boolean {
  try {
    new WellFormedness(text, DEFAULT_LIMITS).check();
    return true;
  } catch (error) {
    if (!(error instanceof HandlineError)) throw error;
    return false;
  }
}

/** What a DTD says of attributes, and whether its address could be followed, has nothing to do with how a score is read. */
const LOOKED_INTO =
  /"http:\/\/www.musicxml.org\/dtds\/partwise.dtd"[\s\S]*<!ATTLIST note colour CDATA #IMPLIED>/;

describe('the well-formedness check against libxml2', () => {
  it('accepts the sources', () => {
    for (const source of SOURCES) expect([weAccept(source), libxmlAccepts(source)]).toEqual([true, true]);
  });

  it('accepts no mutant that libxml2 refuses, and refuses none that it accepts', () => {
    const change = fc.tuple(
      fc.nat(9999).map((tenThousandths) => tenThousandths / 10_000),
      fc.constantFrom(0, 0, 1, 1, 2, 5, 30),
      fc.constantFrom('', '', ...PIECES),
    );
    let [accepted, refused] = [0, 0];
    fc.assert(
      fc.property(
        fc.constantFrom(...SOURCES),
        fc.array(change, { minLength: 1, maxLength: 2 }),
        (source, changes) => {
          const mutant = mutate(source, changes);
          const [ours, theirs] = [weAccept(mutant), libxmlAccepts(mutant)];
          if (ours) accepted += 1;
          else refused += 1;
          if (ours && !theirs) expect(mutant).not.toMatch(LOOKED_INTO);
          if (!ours && theirs) expect(mutant).toMatch(/&maker;|<!DOCTYPE/);
        },
      ),
      { numRuns: 5000 },
    );
    console.log(`well-formedness: ${accepted} mutants accepted, ${refused} refused, as libxml2 does`);
    expect(Math.min(accepted, refused)).toBeGreaterThan(200);
  });
});
