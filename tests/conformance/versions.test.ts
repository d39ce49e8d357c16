import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { applyEdits } from '#core/musicxml/marks/edits.js';
import { readToken } from '#core/musicxml/marks/record/token.js';
import { writeMarks } from '#core/musicxml/marks/write.js';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { clear, read } from '../musicxml/write-source.js';
import { type MarkPlan, marksOf } from '../properties/marks.js';
import { FIXTURES, TUNES } from '../scores.js';

const VERSIONS = ['1.0', '1.1', '2.0', '3.0', '3.1', '4.0'] as const;

/**
 * In which version of MusicXML each element and attribute that we write appeared; `element` stands for itself. From
 * memory of the version histories of MusicXML 1.1 to 4.0: colours and credits came with 1.1, all else with 1.0.
 */
const SINCE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  notations: { element: '1.0' },
  technical: { element: '1.0' },
  fingering: { element: '1.0', placement: '1.0' },
  direction: { element: '1.0', placement: '1.0' },
  'direction-type': { element: '1.0' },
  dashes: { element: '1.0', type: '1.0', number: '1.0' },
  words: { element: '1.0', 'font-family': '1.0', 'font-size': '1.0' },
  voice: { element: '1.0' },
  staff: { element: '1.0' },
};

const EVERYTHING: MarkPlan = {
  fingers: [1, 2, 3, 4, 5],
  kinds: [6, 1, 2, 3, 4, 5],
  texts: ['in', 'out'],
  replaceDigits: false,
  legend: 'in: towards the fallboard',
};

function everyElement(element: XmlElement): XmlElement[] {
  return [element, ...element.children.flatMap(everyElement)];
}

/** What is newer than the version, or unknown to the table. */
function tooNew(element: XmlElement, version: string): string[] {
  const since = SINCE[element.name] ?? {};
  return ['element', ...element.attributeNames]
    .filter((name) => !(Number(since[name] ?? Number.POSITIVE_INFINITY) <= Number(version)))
    .map((name) => `${element.name} ${name} in ${version}`);
}

describe('what is written in a declared version', () => {
  it.each(VERSIONS)('%s is known to it, and its words carry our token', (version) => {
    let [tokens, words, elements] = [0, 0, 0];
    for (const name of TUNES) {
      const { text: original } = decode(readFileSync(`${FIXTURES}${name}`), DEFAULT_LIMITS);
      const declared = original.replace(/(<score-(?:part|time)wise\b)[^>]*>/, `$1 version="${version}">`);
      const source = read(declared);
      expect(source.score.version).toBe(version);
      const edits = writeMarks(declared, source, marksOf(EVERYTHING, source.score));
      for (const { text: inserted } of edits) {
        const inside = everyElement(parseTree(`<all>${inserted}</all>`, DEFAULT_LIMITS)).slice(1);
        expect(inside.flatMap((element) => tooNew(element, version))).toEqual([]);
        elements += inside.length;
        words += inside.filter(({ name }) => name === 'words').length;
        tokens += inside.filter((element) => readToken(element.attribute('font-family'))).length;
      }
    }
    expect(elements).toBeGreaterThan(1000);
    expect(tokens).toBe(words);
    expect(words).toBeGreaterThan(100);
  });

  it('1.0 is taken where none is declared', () => {
    const { text: original } = decode(
      readFileSync(`${FIXTURES}demo/kelp-street-tunes.musicxml`),
      DEFAULT_LIMITS,
    );
    const text = original.replace(/(<score-partwise\b)[^>]*>/, '$1>');
    const source = read(text);
    expect(source.score.version).toBe('1.0');
    const marked = applyEdits(text, writeMarks(text, source, marksOf(EVERYTHING, source.score)));
    expect(clear(marked)).toMatchObject({ text, warnings: [] });
  });
});
