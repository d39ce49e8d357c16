import { annotate, clear } from '@handline/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { rounds } from '../rounds.js';
import { attributes, note, onePart, readText, refusal } from './read-source.js';

const TAG =
  /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>|<!DOCTYPE(?:\[[^\]]*\]|[^>[])*>|<\/?(?=[a-z])/g;
/** The same score with every element in a namespace. */
const inNamespace = (text: string) =>
  text
    .replace(TAG, (tag) => (/^<\/?$/.test(tag) ? `${tag}mx:` : tag))
    .replace(/<mx:score-\w+/, '$& xmlns:mx="urn:mx"');

const SCORE = onePart([attributes() + note('C5', 16)]);
/** Names with a prefix are longer. */
const withoutOffsets = (lines: unknown): unknown =>
  JSON.parse(JSON.stringify(lines, (name, value) => (name === 'offset' ? undefined : value)));

const STRANGE = '<x:note xmlns:x="urn:x"><pitch><step>C</step><octave>4</octave></pitch></x:note>';

describe('namespaces', () => {
  it('a prefix of all names is carried by ours, and clear takes them out', () => {
    const draws = rounds(15, 200);
    let marked = 0;
    fc.assert(
      fc.property(scoreModel, (model) => {
        const plain = toXml(model);
        const text = inNamespace(plain);
        const { output, report } = annotate(text, { legend: true });
        const expected = annotate(plain, { legend: true });
        expect(output).toBe(inNamespace(expected.output));
        expect(withoutOffsets(report.lines)).toEqual(withoutOffsets(expected.report.lines));
        const replaced = annotate(output, { existing: 'replace' }).output;
        expect(replaced).not.toMatch(/<(?:notations|technical|fingering|direction|words)\b/);
        expect(clear(replaced)).toEqual({ output: text, warnings: [] });
        if (output !== text) marked += 1;
      }),
      draws,
    );
    expect(marked).toBeGreaterThan(draws.numRuns / 2);
  });

  it('names without the prefix of the others, or with another one, are no music', () => {
    const text = inNamespace(SCORE).replace('</mx:attributes>', `</mx:attributes>${note('D5', 4)}${STRANGE}`);
    const { output, report } = annotate(text);
    expect(report.lines.map(({ notes }) => notes)).toEqual([1]);
    expect(output).toContain(note('D5', 4) + STRANGE);
    expect(clear(output).output).toBe(text);
  });

  it('a default namespace and elements of other namespaces survive, and are no music', () => {
    const text = SCORE.replace(
      '<score-partwise',
      '<score-partwise xmlns="urn:default" xmlns:y="urn:y" y:kept="yes"',
    )
      .replace('</attributes>', `</attributes>${STRANGE}`)
      .replace('</staff></note>', '</staff><y:thing><technical/></y:thing></note>');
    const { output, report } = annotate(text);
    expect(report.lines.map(({ notes }) => notes)).toEqual([1]);
    for (const piece of [STRANGE, '<y:thing><technical/></y:thing>', 'y:kept="yes"']) {
      expect(output).toContain(piece);
    }
    expect(clear(output).output).toBe(text);
  });

  it('elements that nobody knows survive wherever they stand', () => {
    const text = SCORE.replace('<note>', '<future a="1"><note/></future><note><future/>')
      .replace('</note></measure>', '<future>x</future></note><future/></measure>')
      .replace('</part-list>', '<future/></part-list><future/>');
    const { output, report } = annotate(text);
    expect(report.lines.map(({ notes }) => notes)).toEqual([1]);
    expect(output.split('<future')).toHaveLength(text.split('<future').length);
    expect(clear(output).output).toBe(text);
  });

  it('a prefixed root that is no score is refused by its whole name', () => {
    const found = refusal(() => readText('<s:svg xmlns:s="http://www.w3.org/2000/svg"/>', 'a.xml'));
    expect(found).toMatchObject({ code: 'NOT_MUSICXML' });
    expect(found.message).toMatch(/^a\.xml: the root element is <s:svg>, not <score-partwise>/);
    expect(refusal(() => readText('<svg xmlns="http://www.w3.org/2000/svg"/>')).message).toContain('<svg>');
  });
});
