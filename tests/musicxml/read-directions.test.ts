import { describe, expect, it } from 'vitest';
import type { Part } from '#core/score/model.js';
import { attributes, note, onePart, readFixture, readText, refusal, rest } from './read-source.js';

const at = ({ num, den }: { num: number; den: number }) => (den === 1 ? `${num}` : `${num}/${den}`);

function part(name: string, index = 0): Part {
  return readFixture(name).score.parts[index] as Part;
}

function only(measures: readonly string[]): Part {
  return readText(onePart(measures)).score.parts[0] as Part;
}

describe('directions', () => {
  it('set tempo and pedal', () => {
    const { score } = readFixture('pedal-tempo.musicxml');
    expect(score.tempo.map((mark) => `${at(mark.at)}=${mark.quartersPerMinute}`)).toEqual(['0=60', '4=120']);
    expect(score.parts[0]?.pedal.map(({ from, to }) => `${at(from)}-${at(to)}`)).toEqual(['0-2', '2-8']);
  });

  it.each([
    ['r.h.', 'right'],
    ['R.H.', 'right'],
    ['RH', 'right'],
    ['m. d.', 'right'],
    ['M.D.', 'right'],
    ['rechte Hand', 'right'],
    ['main droite', 'right'],
    ['mano destra', 'right'],
    ['right hand over', 'right'],
    ['l.h.', 'left'],
    ['L. H.', 'left'],
    ['m.s.', 'left'],
    ['m.g.', 'left'],
    ['linke Hand', 'left'],
    ['(l.h.)', 'left'],
    ['mano sinistra', 'left'],
    ['mano izquierda', 'left'],
    ['mf', undefined],
    ['rhapsodic', undefined],
    ['lively', undefined],
    ['mesto', undefined],
    ['marcato', undefined],
  ])('"%s" asks for the hand: %s', (words, hand) => {
    const direction = `<direction><direction-type><words>${words}</words></direction-type></direction>`;
    const [found] = only([attributes() + direction + note('C4', 4) + rest(4)]).notes;
    expect(found?.handWord).toBe(hand);
  });

  it('name a hand up to the next word, a rest or the end of the next measure', () => {
    const { notes } = part('hand-words.musicxml');
    expect(notes.map((found) => found.handWord ?? '-')).toEqual([
      '-',
      'left',
      'left',
      'right',
      'left',
      '-',
      '-',
      '-',
    ]);
    const word = '<direction><direction-type><words>m.s.</words></direction-type></direction>';
    const long = only([attributes() + word + note('C4', 4), note('D4', 4), note('E4', 4)]);
    expect(long.notes.map((found) => found.handWord ?? '-')).toEqual(['left', 'left', '-']);
  });
});

it('a rest under the word itself does not end what it governs, the first one behind a note does', () => {
  const word = '<direction><direction-type><words>m.s.</words></direction-type></direction>';
  const hands = (content: string) =>
    only([attributes() + content]).notes.map((found) => found.handWord ?? '-');
  expect(hands(word + rest(4) + note('C4', 4) + note('D4', 4))).toEqual(['left', 'left']);
  expect(hands(word + note('C4', 4) + rest(4) + note('D4', 4))).toEqual(['left', '-']);
  // A rest of another voice, where the first note begins, is none behind it.
  const two = '<backup><duration>4</duration></backup>';
  expect(hands(word + note('C4', 4) + two + rest(4, '2') + note('D4', 4))).toEqual(['left', 'left']);
});

describe('scores', () => {
  it('read the same partwise and timewise', () => {
    const { score } = readFixture('timewise.musicxml');
    expect(score.parts.map(({ id, name, keyboard }) => `${id} ${name} ${keyboard}`)).toEqual([
      'P1 Oboe false',
      'P2 Piano true',
    ]);
    expect(
      score.parts[1]?.notes.map((found) => `${found.key} @${at(found.onset)} +${at(found.duration)}`),
    ).toEqual(['72 @0 +2', '76 @2 +2', '48 @0 +4', '74 @4 +4', '43 @4 +4']);
  });

  it('are refused where the root is none', () => {
    for (const root of ['opus', 'container', 'mei']) {
      const found = refusal(() => readText(`<${root}/>`, 'a.xml'));
      expect(found.code).toBe('NOT_MUSICXML');
      expect(found.message).toContain(`<${root}>`);
    }
  });

  it('unfold in the order in which they are played', () => {
    expect(part('jumps.musicxml').playingOrder.map(({ measure }) => measure)).toEqual([
      0, 1, 2, 1, 3, 4, 5, 1, 3, 4, 6,
    ]);
  });

  it('may have no parts, no measures, no notes', () => {
    expect(readText('<score-partwise/>').score.parts).toEqual([]);
    expect(readText('<score-timewise/>').score.parts).toEqual([]);
    expect(readText('<score-partwise><part id="P1"/></score-partwise>').score.parts[0]?.measures).toEqual([]);
  });
});
