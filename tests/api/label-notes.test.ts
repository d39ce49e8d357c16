import { labelNotes, readLines } from '@handline/core';
import { expect, it } from 'vitest';
import { readScore } from '#core/musicxml/read/score.js';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { bytesOf, READ_FIXTURES } from '../musicxml/read-source.js';

function everyNote(element: XmlElement): XmlElement[] {
  return element.children.flatMap((child) => (child.name === 'note' ? [child] : everyNote(child)));
}

it.each(READ_FIXTURES)('%s: every note of a line has its id, and nothing else has changed', (name) => {
  const bytes = bytesOf(name);
  const { text, measures } = labelNotes(bytes);
  const root = parseTree(text, DEFAULT_LIMITS);
  const notes = everyNote(root);
  const ids = notes.flatMap((note) => note.attribute('id') ?? []);
  expect(new Set(ids).size).toBe(ids.length);
  const { score, elements } = readScore(root, text, { limits: DEFAULT_LIMITS });
  for (const { line } of readLines(bytes).lines) {
    for (const { struck, measure } of line.slices) {
      expect(measures[line.part]![measure]).toBe(score.parts[line.part]!.measures[measure]!.number);
      for (const { key, notes: own } of struck) {
        for (const note of own) {
          expect(elements[line.part]![note]!.attribute('id')).toBe(`note-${line.part}-${note}`);
          expect(score.parts[line.part]!.notes[note]!.key).toBe(key);
        }
      }
    }
  }
  expect(text).not.toMatch(/^\s*<\?xml/);
});

it('replaces an id that a note has, and gives the title and the names of the parts', () => {
  const score = (note: string) =>
    `<score-partwise><work><work-title>Tide</work-title></work><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1"><measure number="7"><attributes><divisions>1</divisions></attributes>${note}<pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note></measure></part></score-partwise>`;
  for (const tag of ['<note>', "<note default-x='1' id = 'a>b'>", '<note id="n">']) {
    const { text, title, measures, parts } = labelNotes(score(tag));
    expect(text).toContain(' id="note-0-0"');
    expect(text.match(/ id ?=/g)).toHaveLength(3);
    expect({ title, measures, parts }).toEqual({ title: 'Tide', measures: [['7']], parts: ['Piano'] });
  }
});
