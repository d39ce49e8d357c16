import { annotate, clear } from '@handline/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { attributes, note, onePart, readText, rest } from './read-source.js';

describe('imperfect files', () => {
  const plain = note('C4', 4);
  const move = (name: string, duration: string) => `<${name}><duration>${duration}</duration></${name}>`;

  it.each([
    ['a misplaced <tie>', note('C4', 4).replace('<staff>', '<tie type="start"/><staff>'), 'in the order'],
    ['a <chord> behind its pitch', plain + plain.replace('<duration>', '<chord/><duration>'), 'in the order'],
    ['notations before the staff', plain.replace('<voice>', '<notations/><voice>'), 'in the order'],
    ['a note without length', note('C4', 0), 'a note has the duration 0'],
    ['a rest without length', rest(0), 'a rest has the duration 0'],
    ['a negative length', note('C4', -4), 'no usable duration'],
    ['a length that is no number', note('C4', Number.NaN), 'no usable duration'],
    ['a length beyond all numbers', note('C4', 1e99), 'no usable duration'],
    ['an octave that no instrument has', note('C99', 4), 'a <pitch> cannot be read'],
    ['a chord member without a note', note('C4', 4, { lead: '<chord/>' }), 'no note to join'],
    ['a <backup> of 0', plain + move('backup', '0'), '<backup> has no positive duration'],
    ['a <backup> too far', plain + move('backup', '9'), '<backup> goes back beyond the start of its measure'],
    ['a <forward> of 0', move('forward', '0'), '<forward> has no positive duration'],
    ['a <forward> back', plain + move('forward', '-4'), '<forward> has no positive duration'],
    ['a <backup> without number', plain + move('backup', ''), '<backup> has no positive duration'],
    ['a staff that the part has not', note('C3', 4, { staff: 3 }), "a staff beyond the part's 2"],
    ['divisions of 0', attributes(0) + plain, 'divisions or a time'],
  ])('warns of %s, and reads on', (_, measure, message) => {
    const after = note('E4', 4);
    const text = onePart([attributes() + measure + after]);
    const { score, warnings } = readText(text, 'a.xml');
    expect(warnings).toMatchObject([
      {
        code: 'IMPERFECT',
        place: { file: 'a.xml', part: 'P1', measure: '1', line: 1, column: expect.any(Number) },
      },
    ]);
    expect(warnings[0]?.message).toContain(message);
    expect(score.parts[0]?.notes.at(-1)?.key).toBe(64);
    const { output, report } = annotate(text);
    expect(report.warnings.map(({ code }) => code)).toContain('IMPERFECT');
    expect(report.lines[0]?.fingered).toBeGreaterThan(0);
    expect(clear(output).output).toBe(text);
  });

  it('warns of nothing where every child of a note is in its place', () => {
    const lead = '<chord/>';
    const ties = '<tie type="start"/><instrument id="I"/><footnote/><level/>';
    const full = note('E4', 4, { lead, ties })
      .replace(
        '<staff>',
        '<type>quarter</type><dot/><dot/><accidental/><time-modification/><stem/><notehead/><staff>',
      )
      .replace('</note>', '<notations/><lyric/><lyric/><play/><listen/></note>');
    const grace = note('C4', undefined, { lead: '<grace/><cue/>' });
    expect(readText(onePart([attributes() + grace + plain + full])).warnings).toEqual([]);
  });

  it('are told from valid ones: no valid score is warned of', () => {
    fc.assert(
      fc.property(scoreModel, (model) => {
        expect(readText(toXml(model)).warnings).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });
});
