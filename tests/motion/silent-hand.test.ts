import { expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import type { Line } from '#core/hands/line.js';
import { handCrossings } from '#core/motion/hand-crossings.js';
import type { Hand } from '#core/score/model.js';
import { Clock } from '#core/score/tempo.js';
import { attributes, backup, note, onePart, readText, rest } from '../musicxml/read-source.js';

/*
 * Hands are crossed only while both sound: a hand that has let go is nowhere, however high its last note was.
 */

/** A hand's measure of 4/4 in quarter notes, as in `C6:2 r:2`; a dash before a note ties it to the one before. */
function measure(hand: Hand, sketch: string, tail: string): string {
  const staff = hand === 'right' ? 1 : 2;
  const voice = hand === 'right' ? '1' : '5';
  return sketch
    .split(' ')
    .map((word) => {
      const [, tied, name = '', quarters = '1'] = /^(-?)([^:]+):?([\d.]*)$/.exec(word) ?? [];
      const duration = 4 * Number(quarters || 1);
      const ties = tied ? '<tie type="stop"/>' : word === tail ? '<tie type="start"/>' : '';
      return name === 'r' ? rest(duration, voice, staff) : note(name, duration, { voice, staff, ties });
    })
    .join('');
}

/** Crossings as `left over 2`: hand, kind, and quarter note in the score; measures of the two hands by `|`. */
function crossings(right: string, left: string, tempo = '', tail = ''): readonly string[] {
  const lefts = left.split('|');
  const { score } = readText(
    onePart(
      right
        .split('|')
        .map(
          (own, at) =>
            (at === 0 ? `${attributes(4, 2)}<sound tempo="100"/>` : tempo) +
            measure('right', own.trim(), tail) +
            backup(16) +
            measure('left', lefts[at]!.trim(), tail),
        ),
    ),
  );
  const { lines } = buildLines(score);
  const given = (hand: Hand) => {
    const line = lines.find((own) => own.hand === hand)!;
    const slices = line.slices.map(({ struck, held }) => ({
      struck: struck.map(() => 3 as const),
      held: held.map(() => 3 as const),
    }));
    return { line, fingers: { slices } };
  };
  const [r, l] = [given('right'), given('left')];
  const found = handCrossings(r, l, new Clock(score.tempo));
  const tell = ({ slices }: Line, hand: Hand) =>
    found[hand].flatMap((own, at) => {
      const { num, den } = slices[at]!.onset;
      return own ? [`${hand} ${own.kind.slice(5)} ${num / den}`] : [];
    });
  return [...tell(r.line, 'right'), ...tell(l.line, 'left')];
}

it('a hand that rests is not crossed by what the other plays below or above it', () => {
  expect(crossings('r C5 D5 E5', 'C6 r r r')).toEqual([]);
  expect(crossings('r:2 C5 D5', 'C6 C6 r r')).toEqual([]);
  expect(crossings('C4 r r r', 'r C5 D5 E5')).toEqual([]);
  expect(crossings('C4:4 | r:4 | C4:4', 'r:4 | C5 D5 E5 F5 | C3:4')).toEqual([]);
});

it('a hand that still holds its key is', () => {
  expect(crossings('r C5 D5 E5', 'C6:2 r:2 ')).toEqual(['right over 1']);
  expect(crossings('r:2 C5 D5', 'C6:3 r')).toEqual(['right over 2']);
  // Through a tie, into the next measure.
  expect(crossings('r:4 | C5 D5 E5 F5', 'C6:4 | -C6:2 r:2', '', 'C6:4')).toEqual(['right over 4']);
});

it('a hand that is alone with one note in the piece is crossed as long as it sounds', () => {
  expect(crossings('r C5 D5 E5', 'C6:4')).toEqual(['right over 1']);
  expect(crossings('C4:4', 'r C5 D5 E5')).toEqual(['left over 1']);
  expect(crossings('r:2 C5 D5', 'C6:2 r:2')).toEqual([]);
});

it('a crossing ends with the sound, and the next one is told again', () => {
  expect(crossings('r C5 D5 E5', 'C6:4')).toEqual(['right over 1']);
  expect(crossings('r C5 r D5', 'C6:2 C6:2')).toEqual(['right over 1', 'right over 3']);
  expect(crossings('r C5:0.5 r:0.5 r D5', 'C6:1.5 r:0.5 C6:2')).toEqual(['right over 1', 'right over 3']);
});

it('whatever the tempo is, and where it changes', () => {
  for (const tempo of ['<sound tempo="30"/>', '<sound tempo="200"/>']) {
    expect(crossings('r:4 | r C5 D5 E5', 'C3 D3 E3 F3 | C6 r r r', tempo)).toEqual([]);
    expect(crossings('r:4 | r C5 D5 E5', 'C3 D3 E3 F3 | C6:2 r:2', tempo)).toEqual(['right over 5']);
    expect(crossings('r:4 | r:4 | C5:4', 'C3 D3 E3 C6:1 | r:4 | r:4', tempo)).toEqual([]);
  }
});
