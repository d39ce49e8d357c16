import { annotate } from '@handline/core';
import { expect, it } from 'vitest';
import { attributes, backup, note, onePart } from '../musicxml/read-source.js';

const lead = '<chord/>';
const rest = '<note><rest/><duration>4</duration><voice>2</voice><staff>1</staff></note>';
/** A held octave, and thirds far below it. */
const OCTAVE = onePart([
  attributes() +
    note('D5', 16) +
    note('D6', 16, { lead }) +
    backup(16) +
    rest +
    [0, 1, 2].map(() => note('F4', 4, { voice: '2' }) + note('A4', 4, { voice: '2', lead })).join(''),
]);

const digitsOf = (text: string) =>
  [...String(annotate(text, { layers: [] }).output).matchAll(/<fingering[^>]*>([^<]*)</g)].map(
    ([, own]) => own,
  );

it('no finger is told to take over a key of an octave whose other key the hand has let go', () => {
  const octave = digitsOf(OCTAVE);
  expect(octave).toContain('5');
  expect(octave.filter((digit) => digit!.includes('-'))).toEqual([]);
});
