import { describe, expect, it } from 'vitest';
import { notesAtSlurs } from '#core/musicxml/marks/places/slurs.js';
import { attributes, backup, note, onePart, readText } from './read-source.js';

const slur = (type: string, number = 1, more = '') => `<slur type="${type}" number="${number}"${more}/>`;
const LINE = ['C5', 'D5', 'E5', 'F5', 'G5'];

/** Places in document order, by side; `marks` by place, `stems` a letter a note. */
function sides(
  marks: Readonly<Record<number, string>>,
  stems = '',
  content = (notes: string) => notes,
): readonly string[] {
  const written = LINE.map((pitch, at) => {
    const stem = { u: 'up', d: 'down' }[stems[at] ?? ''];
    const own = note(pitch, 2, marks[at] === undefined ? {} : { notations: marks[at] });
    return stem ? own.replace('<staff>', `<stem>${stem}</stem><staff>`) : own;
  }).join('');
  const { score, elements } = readText(onePart([attributes() + content(written)]));
  const { above, below } = notesAtSlurs(score.parts[0]!.notes, elements[0]!);
  return [[...above].sort().join(), [...below].sort().join()];
}

const LONG = { 0: slur('start'), 4: slur('stop') };

describe('notes at slurs', () => {
  it('are those between its ends', () => {
    expect(sides({})).toEqual(['', '']);
    expect(sides(LONG)).toEqual(['1,2,3', '1,2,3']);
    expect(sides({ 0: slur('start'), 1: slur('stop') })).toEqual(['', '']);
    expect(sides({ 0: slur('start'), 2: slur('stop') + slur('start'), 4: slur('stop') })).toEqual([
      '1,3',
      '1,3',
    ]);
    expect(sides({ 0: slur('start') })).toEqual(['', '']);
    expect(sides({ 4: slur('stop') })).toEqual(['', '']);
  });

  it('are told apart by number where slurs lie within each other', () => {
    const within = { 0: slur('start'), 1: slur('start', 2), 2: slur('stop', 2), 4: slur('stop') };
    expect(sides(within)).toEqual(['1,2,3', '1,2,3']);
    expect(sides({ 0: slur('start'), 2: slur('start', 2) + slur('stop'), 4: slur('stop', 2) })).toEqual([
      '1,3',
      '1,3',
    ]);
  });

  it('lie on the side that the file says', () => {
    for (const [said, side] of [
      ['placement="above"', 0],
      ['placement="below"', 1],
      ['orientation="over"', 0],
      ['orientation="under"', 1],
    ] as const) {
      const found = sides({ 0: slur('start', 1, ` ${said}`), 4: slur('stop') }, 'uuddu');
      expect(found[side]).toBe('1,2,3');
      expect(found[1 - side]).toBe('');
    }
  });

  it('else at the heads where all stems go up, above where not all do (common practice)', () => {
    expect(sides(LONG, 'uuuuu')).toEqual(['', '1,2,3']);
    expect(sides(LONG, 'ddddd')).toEqual(['1,2,3', '']);
    expect(sides(LONG, 'uuudd')).toEqual(['1,2,3', '']);
    // Only stems of its own notes count.
    expect(sides({ 0: slur('start'), 2: slur('stop') }, 'uuudd')).toEqual(['', '1']);
  });

  it('and of two voices above the higher, below the lower', () => {
    const other = (pitch: string) => (notes: string) =>
      notes + backup(10) + Array.from({ length: 5 }, () => note(pitch, 2, { voice: '2' })).join('');
    // The other voice's notes at the same onsets lie at the slur as well.
    expect(sides(LONG, 'ddddd', other('C4'))).toEqual(['1,2,3,6,7,8', '']);
    expect(sides(LONG, 'uuuuu', other('C6'))).toEqual(['', '1,2,3,6,7,8']);
    const lower = (notes: string) => notes + backup(10) + note('C3', 10, { voice: '5', staff: 2 });
    expect(sides(LONG, 'uuuuu', lower)).toEqual(['', '1,2,3']);
  });
});
