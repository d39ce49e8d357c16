import { annotate } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, backup, note, onePart, rest } from '../musicxml/read-source.js';

const WHOLE = 16;

function chord(pitches: readonly string[], staff: 1 | 2, notations = ''): string {
  return pitches
    .map((pitch, nth) =>
      note(pitch, WHOLE, {
        staff,
        voice: staff === 1 ? '1' : '5',
        lead: nth > 0 ? '<chord/>' : '',
        notations,
      }),
    )
    .join('');
}

const measure = (right: string, left: string, head = attributes()) =>
  `${head}${right}${backup(WHOLE)}${left}`;
const silent = rest(WHOLE, '5', 2);

/** What is said of the right hand's chord, with more measures behind it; undefined where the hand reaches it. */
function said(
  right: string,
  left: string,
  span: string | number | { readonly right?: string; readonly left?: string },
  ...more: readonly string[]
) {
  const { report } = annotate(onePart([measure(right, left), ...more]), { span, layers: [] });
  const lines = report.lines.filter(({ unreachable }) => unreachable.length > 0);
  expect(report.warnings.filter(({ code }) => code === 'UNPLAYABLE')).toHaveLength(lines.length);
  const [line] = lines;
  return line && { hand: line.hand, ...line.unreachable[0]!, fingers: line.slices[0]!.fingers };
}

describe('a chord out of reach', () => {
  const tenth = ['C4', 'G4', 'E5'];

  it.each([
    ['7th', 60 + 11],
    ['8th', 60 + 12],
    ['9th', 60 + 14],
    ['10th', 60 + 16],
    ['11th', 60 + 17],
  ])('a hand of a %s reaches that interval and no more', (span, widest) => {
    const names = ['A4', 'B4', 'C5', 'D5', 'E5', 'F5', 'G5'];
    const keys = [69, 71, 72, 74, 76, 77, 79];
    keys.forEach((key, nth) => {
      const found = said(chord(['C4', names[nth]!], 1), silent, span);
      if (key <= widest) expect(found).toBeUndefined();
      else expect(found?.left).toHaveLength(1);
    });
  });

  it('goes in part to the other hand where that is free', () => {
    const later = measure(rest(WHOLE, '1', 1), chord(['G3'], 2), '');
    const found = said(chord(tenth, 1), silent, '8th', later)!;
    expect(found).toMatchObject({
      hand: 'right',
      measure: '1',
      beat: 1,
      keys: [60, 67, 76],
      left: [60],
      otherHand: [60],
      ways: ['other-hand', 'roll', 'omit'],
    });
    const beside = said(chord(tenth, 1), chord(['G3', 'B3'], 2), '8th')!;
    expect(beside.otherHand).toEqual([60]);
    expect(beside.ways).toEqual(['other-hand', 'roll', 'omit']);
    expect(beside.message).toBe('let the left hand take C4, or roll the chord, or omit C4');
  });

  it('stays with its hand in a piece for that hand alone', () => {
    const found = said(chord(tenth, 1), silent, '8th')!;
    expect(found).toMatchObject({ hand: 'right', left: [60], otherHand: [], ways: ['roll', 'omit'] });
    expect(found.message).toBe('roll the chord, or omit C4');
  });

  it('stays where the other hand is busy far away', () => {
    const found = said(chord(tenth, 1), chord(['C2', 'G2'], 2), '8th')!;
    expect(found.otherHand).toEqual([]);
    expect(found.message).toBe('roll the chord, or omit C4');
  });

  it('of the left hand gives its upper notes to the right', () => {
    const found = said(chord(['E4', 'G4'], 1), chord(['C3', 'G3', 'Eb4'], 2), '8th')!;
    expect(found).toMatchObject({ hand: 'left', otherHand: [63], left: [63] });
    expect(found.message).toBe('let the right hand take E♭4, or roll the chord, or omit E♭4');
  });

  it('is judged for each hand by its own span', () => {
    expect(said(chord(tenth, 1), silent, { right: '10th', left: '7th' })).toBeUndefined();
    expect(said(chord(tenth, 1), silent, { right: '8th', left: '12th' })?.hand).toBe('right');
  });

  it('has a finger on every note where it is rolled', () => {
    const right = chord(tenth, 1, '<arpeggiate/>');
    expect(said(right, silent, '8th')).toBeUndefined();
    const { report } = annotate(onePart([measure(right, silent)]), { span: '8th' });
    expect(report.lines[0]!.slices[0]!.fingers).not.toContain(null);
  });

  it('leaves a small hand more notes short than a large one', () => {
    const wide = chord(['C4', 'G4', 'C5', 'Eb5'], 1);
    const counts = ['small', 'medium', 'large'].map((span) => said(wide, silent, span)?.left.length ?? 0);
    console.log(
      `chord of a minor tenth, keys left over by small, medium and large hand: ${counts.join(', ')}`,
    );
    expect(counts[0]!).toBeGreaterThan(counts[2]!);
    expect(counts[2]).toBe(0);
  });
});
