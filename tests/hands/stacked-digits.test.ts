import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { attributes, note, onePart, readText } from '../musicxml/read-source.js';

const fingerings = (...texts: string[]) =>
  `<technical>${texts.map((text) => `<fingering>${text}</fingering>`).join('')}</technical>`;

/** A chord whose digits stand at one of its notes, in the staff of a hand. */
function chord(staff: number, pitches: readonly string[], carrier: number, technical: string): string {
  const notes = pitches.map((pitch, at) =>
    note(pitch, 4, {
      staff,
      lead: at === 0 ? '' : '<chord/>',
      notations: at === carrier ? technical : '',
    }),
  );
  return onePart([attributes() + notes.join('')]);
}

/** Fingers that the file demands, from the lowest key up. */
function demanded(text: string): string {
  const [line] = buildLines(readText(text).score).lines;
  return line!.slices[0]!.struck.map(({ fixed }) => fixed ?? '-').join('');
}

const TRIAD = ['C4', 'E4', 'G4'];

describe('a stack of digits at one note of a chord', () => {
  it.each([
    ['as one text with spaces', fingerings('5 3 1')],
    ['as one text with line breaks', fingerings('5\n3\n1')],
    ['as one text without', fingerings('531')],
    ['as several elements', fingerings('5', '3', '1')],
    ['as several elements from below', fingerings('1', '3', '5')],
  ])('%s is shared out along the hand', (_, technical) => {
    for (const carrier of [0, 1, 2]) {
      expect(demanded(chord(1, TRIAD, carrier, technical))).toBe('135');
      expect(demanded(chord(2, TRIAD, carrier, technical))).toBe('531');
    }
  });

  it('goes by pitch whatever the order of the notes, and from the top down where it runs both ways', () => {
    expect(demanded(chord(1, ['G4', 'C4', 'E4'], 0, fingerings('5 2 1')))).toBe('125');
    expect(demanded(chord(1, TRIAD, 0, fingerings('2 1 3')))).toBe('312');
  });

  it('keeps the file as it is: nothing of ours in the chord, and nothing to clear', () => {
    for (const technical of [fingerings('5 3 1'), fingerings('5', '3', '1')]) {
      const text = chord(1, TRIAD, 0, technical);
      const { output, report } = annotate(text, { layers: [] });
      expect(output).toBe(text);
      expect(report.warnings).toEqual([]);
      expect(report.lines[0]).toMatchObject({ notes: 3, fingered: 0, kept: 3 });
      expect(report.lines[0]?.slices[0]?.fingers).toEqual([1, 3, 5]);
      const replaced = annotate(text, { layers: [], existing: 'replace' }).output;
      expect(replaced.match(/<fingering /g)).toHaveLength(3);
      expect(replaced).not.toContain('<fingering>');
      expect(clear(replaced).output).toBe(text);
    }
  });

  it.each([
    ['too few digits', chord(1, TRIAD, 0, fingerings('5 1'))],
    ['too many digits', chord(1, TRIAD, 0, fingerings('5', '4', '3', '1'))],
    [
      'a digit at another note too',
      chord(1, TRIAD, 0, fingerings('5 3 1')).replace(
        '<octave>4</octave></pitch><duration>4</duration><voice>1</voice><staff>1</staff></note></measure>',
        '<octave>4</octave></pitch><duration>4</duration><voice>1</voice><staff>1</staff><notations><technical><fingering>4</fingering></technical></notations></note></measure>',
      ),
    ],
  ])('with %s is left in print and not used, with a warning', (_, text) => {
    const { output, report } = annotate(text, { layers: [] });
    expect(report.warnings.map(({ code }) => code)).toEqual(['DIGIT_IGNORED']);
    expect(report.warnings[0]?.place).toMatchObject({ part: 'P1', measure: '1', line: 1 });
    expect(clear(output).output).toBe(text);
    expect(demanded(text)).toMatch(/^--[-4]$/);
  });

  it('at a single note means its first digit where it stands in elements of its own', () => {
    const single = (technical: string) => onePart([attributes() + note('C4', 4, { notations: technical })]);
    expect(demanded(single(fingerings('4', '1')))).toBe('4');
    expect(demanded(single(fingerings('41')))).toBe('-');
    expect(buildLines(readText(single(fingerings('4', '1'))).score).warnings).toHaveLength(1);
  });
});
