import { annotate, beatText, review } from '@handline/core';
import { describe, expect, it } from 'vitest';

const note = (step: string, duration: number) =>
  `<note><pitch><step>${step}</step><octave>5</octave></pitch><duration>${duration}</duration><voice>1</voice></note>`;

/** Eighth notes in the right hand, as many as fill a measure, under a time signature. */
function score(beats: number, type: number, upbeat = 0): string {
  const eighths = (beats * 8) / type;
  const tune = (count: number) =>
    Array.from({ length: count }, (_, nth) => note('CDEFG'[nth % 5]!, 1)).join('');
  const attributes =
    `<attributes><divisions>2</divisions><time><beats>${beats}</beats><beat-type>${type}</beat-type></time>` +
    '<clef><sign>G</sign><line>2</line></clef></attributes>';
  const before =
    upbeat > 0 ? `<measure number="0" implicit="yes">${attributes}${tune(upbeat)}</measure>` : '';
  return (
    '<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list>' +
    `<part id="P1">${before}<measure number="1">${before ? '' : attributes}${tune(eighths)}</measure></part></score-partwise>`
  );
}

const METRES: [number, number, number, number[]][] = [
  [4, 4, 0, [1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5]],
  [6, 8, 0, [1, 2, 3, 4, 5, 6]],
  [2, 2, 0, [1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75]],
  [3, 8, 2, [2, 3, 1, 2, 3]],
];

describe.each(METRES)('in %i/%i with an upbeat of %i eighths', (beats, type, upbeat, counted) => {
  const text = score(beats, type, upbeat);
  const { slices } = annotate(text, { staff: { right: [1] } }).report.lines[0]!;

  it('notes are told as players count them', () => {
    expect(slices.map(({ beat }) => beat)).toEqual(counted);
  });

  it('a beat that is typed means the note of which it is told', () => {
    for (const { measure, beat } of slices) {
      const tries = [{ measure, beat, hand: 'right' as const, digits: [[2 as const]] }];
      const [tried] = review(text, { staff: { right: [1] }, tries }).comparisons;
      expect(tried!.from).toEqual({ measure, beat });
    }
  });
});

it('a third of a beat is found by two figures', () => {
  const triplets = score(4, 4).replace('<divisions>2<', '<divisions>3<');
  const tries = [{ measure: '1', beat: 1.33, hand: 'right' as const, digits: [[2 as const]] }];
  expect(review(triplets, { staff: { right: [1] }, tries }).comparisons[0]!.from.beat).toBe(1.333);
});

it('a beat is written to three places at most', () => {
  const texts = [11 / 6, 4 / 3, 2.9999, 2.5].map((beat) => beatText(beat, 'de'));
  expect(texts).toEqual(['1,833', '1⅓', '3', '2½']);
});
