import { describe, expect, it } from 'vitest';
import { attributes, backup, note, onePart, rest } from '../musicxml/read-source.js';
import { chord, digit, grand, low, shared, silent, TENTH, WHOLE } from './shared-chords.js';

describe('a chord stays with its hand', () => {
  it.each([
    ['a hand that is busy far away', low(['C2', 'G2'])],
    [
      'a hand that plays too fast on to get there and back',
      Array.from({ length: 16 }, (_, at) =>
        at === 2 ? rest(1, '5', 2) : low([at % 2 ? 'C2' : 'D2'], 1),
      ).join(''),
    ],
    ['a hand that must leave the note to play on', low(['B3'], 4) + low(['C2', 'G2'], 12)],
  ])('%s takes nothing', (_, left) => {
    const right = `${chord(['E5'], { duration: 2 })}${chord(TENTH, { duration: 14 })}`;
    const { plays, words, told, report } = shared(grand([right, left]));
    expect(plays.right).toContain('60+67+76=');
    expect(words).toEqual([]);
    expect(told.flat()).toEqual([]);
    expect(report.warnings.map(({ code }) => code)).toEqual(['UNPLAYABLE']);
  });

  it('a hand that must leave the note takes it where the pedal holds it', () => {
    const pedal = (type: string) =>
      `<direction><direction-type><pedal type="${type}"/></direction-type><staff>2</staff></direction>`;
    const left = low(['G3', 'B3'], 8) + low(['C2', 'G2'], 8);
    const dry = shared(grand([chord(TENTH), left]));
    expect(dry.words).toEqual([]);
    const wet = shared(
      onePart([`${attributes()}${pedal('start')}${chord(TENTH)}${backup(WHOLE)}${left}${pedal('stop')}`]),
    );
    expect(wet.words).toEqual(['l.h. below']);
  });

  it('a digit in print keeps its note with its hand, and binds the rest of the chord', () => {
    const free = silent();
    const given = (finger: number, pitch: string) => chord(TENTH, { notations: { [pitch]: digit(finger) } });
    const own = shared(grand([given(1, 'C4'), free]));
    expect(own.words).toEqual([]);
    expect(own.report.warnings.map(({ code }) => code)).toEqual(['UNPLAYABLE']);
    // Of what stays, 4 on the top note is the file's.
    const top = shared(grand([given(4, 'E5'), free]));
    expect(top.plays.right).toBe('67+76=1+4');
    expect(top.words).toEqual(['l.h. below']);
    // Ours take its place.
    const replaced = shared(grand([given(1, 'C4'), free]), { existing: 'replace' });
    expect(replaced.words).toEqual(['l.h. below']);
    const ignored = shared(grand([given(1, 'C4'), free]), { existing: 'ignore' });
    expect(ignored.words).toEqual([]);
    // A stack has a digit for every note.
    const stack = shared(grand([chord(TENTH, { notations: { E5: digit('5 2 1') } }), free]));
    expect(stack.words).toEqual([]);
  });

  it('a digit in print that does not go with the note taken keeps the hands apart', () => {
    const thumb = note('Bb3', WHOLE, { staff: 2, voice: '5', notations: digit(1) });
    expect(shared(grand([chord(TENTH), thumb])).words).toEqual([]);
    const second = note('Bb3', WHOLE, { staff: 2, voice: '5', notations: digit(2) });
    expect(shared(grand([chord(TENTH), second])).plays.left).toBe('58+60=2+1');
  });

  it('a word of the file has already said whose the notes are', () => {
    const word =
      '<direction><direction-type><words>r.h.</words></direction-type><staff>1</staff></direction>';
    expect(shared(grand([word + chord(TENTH), silent()])).words).toEqual([]);
  });

  it('a repeat is felt: a hand that is far away when it begins anew takes nothing', () => {
    const barline = (direction: string, location: string) =>
      `<barline location="${location}"><repeat direction="${direction}"/></barline>`;
    const measures = (last: string, repeated: boolean) =>
      onePart([
        `${attributes()}${repeated ? barline('forward', 'left') : ''}${chord(TENTH)}${backup(WHOLE)}${silent()}`,
        `${rest(WHOLE)}${backup(WHOLE)}${silent(14)}${last}${repeated ? barline('backward', 'right') : ''}`,
      ]);
    const far = low(['D2'], 2);
    expect(shared(measures(far, false)).words).toEqual(['l.h. below']);
    expect(shared(measures(far, true)).words).toEqual([]);
    expect(shared(measures(low(['G3'], 2), true)).words).toEqual(['l.h. below']);
  });

  it('a rolled chord that the hand can roll is left alone', () => {
    const rolled = chord(TENTH, { notations: Object.fromEntries(TENTH.map((p) => [p, '<arpeggiate/>'])) });
    expect(shared(grand([rolled, silent()])).words).toEqual([]);
  });

  it('a hand that was not asked for, or that has no staff, plays nothing', () => {
    const score = grand([chord(TENTH), silent()]);
    expect(shared(score, { staff: { right: [1] } }).words).toEqual([]);
    expect(shared(score, { staff: { right: [1], left: [2] } }).words).toEqual(['l.h. below']);
    const right = shared(score, { hands: 'right' });
    expect(right.words).toEqual(['l.h. below']);
    expect(right.report.lines.map(({ hand }) => hand)).toEqual(['right']);
    expect(right.output.match(/<fingering/g)).toHaveLength(2);
  });
});
