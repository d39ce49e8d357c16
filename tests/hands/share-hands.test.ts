import { annotate, clear, planDigits } from '@handline/core';
import { describe, expect, it } from 'vitest';
import type { AnnotateOptions } from '#core/options/options.js';
import { attributes, backup, note, onePart, rest } from '../musicxml/read-source.js';

const WHOLE = 16;
const digit = (finger: number | string) => `<technical><fingering>${finger}</fingering></technical>`;

interface Chord {
  readonly staff?: 1 | 2;
  readonly duration?: number;
  /** Elements after `<duration>` and within `<notations>`, by pitch. */
  readonly ties?: Readonly<Record<string, string>>;
  readonly notations?: Readonly<Record<string, string>>;
}

function chord(pitches: readonly string[], sketch: Chord = {}): string {
  const { staff = 1, duration = WHOLE, ties = {}, notations = {} } = sketch;
  return pitches
    .map((pitch, nth) =>
      note(pitch, duration, {
        staff,
        voice: staff === 1 ? '1' : '5',
        lead: nth > 0 ? '<chord/>' : '',
        ties: ties[pitch] ?? '',
        notations: notations[pitch] ?? '',
      }),
    )
    .join('');
}

const low = (pitches: readonly string[], duration = WHOLE) => chord(pitches, { staff: 2, duration });
const silent = (duration = WHOLE) => rest(duration, '5', 2);
/** Measures of right and left hand. */
const grand = (...measures: readonly (readonly [string, string])[]) =>
  onePart(
    measures.map(([right, left], at) => `${at === 0 ? attributes() : ''}${right}${backup(WHOLE)}${left}`),
  );

/** What each hand plays, as `keys=fingers`, the hand words in print and what the report tells. */
function shared(score: string, options: AnnotateOptions = {}) {
  const { output, report } = annotate(score, { span: '8th', layers: [], shareHands: true, ...options });
  expect(clear(output).output).toBe(score);
  const plays = Object.fromEntries(
    report.lines.map(({ hand, slices }) => [
      hand,
      slices.map(({ keys, fingers }) => `${keys.join('+')}=${fingers.join('+')}`).join(' '),
    ]),
  );
  const words = [...output.matchAll(/<direction placement="(\w+)">.*?<words[^>]*>([^<]*)<\/words>/gs)].map(
    ([, placement, text]) => `${text} ${placement}`,
  );
  const told = report.lines.map(({ shared = [] }) => shared.map(({ message }) => message));
  return { output, report, plays, words, told };
}

const TENTH = ['C4', 'G4', 'E5'];

describe('hands that share a chord', () => {
  it('the left takes the lowest notes of the right, with its own digits and a word', () => {
    const score = grand([chord(TENTH), low(['G3', 'B3'])]);
    const { plays, words, told, report, output } = shared(score);
    expect(plays).toEqual({ right: '67+76=1+5', left: '55+59+60=5+3+1' });
    expect(words).toEqual(['l.h. below']);
    const message = "the left hand takes C4 of the right hand's chord";
    expect(told).toEqual([[message], [message]]);
    expect(report.lines[0]!.shared).toEqual([
      { measure: '1', beat: 1, takenBy: 'left', keys: [60], message },
    ]);
    expect(report.lines.flatMap(({ unreachable }) => unreachable)).toEqual([]);
    expect(report.warnings).toEqual([]);
    expect(output).toMatch(/<fingering placement="below"[^>]*>1<.*<chord\/>/s);
    // The note itself, its staff and its voice stay as they are.
    expect(output).toContain(
      '<pitch><step>C</step><octave>4</octave></pitch><duration>16</duration><voice>1</voice><staff>1</staff>',
    );
  });

  it('the right takes the highest notes of the left', () => {
    const { plays, words, told } = shared(grand([chord(['E4', 'G4']), low(['C3', 'G3', 'Eb4'])]));
    expect(plays.right).toMatch(/^63\+64\+67=1\+/);
    expect(plays.left).toMatch(/^48\+55=[45]\+1$/);
    expect(words).toEqual(['r.h. above']);
    expect(told[1]).toEqual(["the right hand takes D♯4 of the left hand's chord"]);
  });

  it('a hand that has nothing else gets a line of its own', () => {
    const { plays, words } = shared(grand([chord(TENTH), silent()]));
    expect(plays).toEqual({ right: '67+76=1+5', left: expect.stringMatching(/^60=\d$/) });
    expect(words).toEqual(['l.h. below']);
  });

  it.each([
    ['en', 'l.h.', 'r.h.'],
    ['de', 'l.H.', 'r.H.'],
    ['fr', 'm.g.', 'm.d.'],
    ['it', 'm.s.', 'm.d.'],
    ['es', 'm.i.', 'm.d.'],
  ] as const)('the words in %s are %s and %s', (language, left, right) => {
    expect(shared(grand([chord(TENTH), silent()]), { language }).words).toEqual([`${left} below`]);
    const upwards = grand([rest(WHOLE), low(['C3', 'G3', 'Eb4'])]);
    expect(shared(upwards, { language }).words).toEqual([`${right} above`]);
  });

  it('nothing changes without the option', () => {
    const score = grand([chord(TENTH), low(['G3', 'B3'])]);
    const { output, report } = annotate(score, { span: '8th', layers: [] });
    expect(output).toBe(annotate(score, { span: '8th', layers: [], shareHands: false }).output);
    expect(output).not.toContain('<direction');
    expect(report.warnings.map(({ code }) => code)).toEqual(['UNPLAYABLE']);
    for (const line of report.lines) expect(line).not.toHaveProperty('shared');
  });

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

  it('a tied note is taken once and held to its end by the hand that took it', () => {
    const start = { C4: '<tie type="start"/>', E5: '<tie type="start"/>' };
    const stop = { C4: '<tie type="stop"/>', E5: '<tie type="stop"/>' };
    const score = (left: string) =>
      grand([chord(TENTH, { ties: start }), silent()], [chord(['C4', 'E5'], { ties: stop }), left]);
    const { plays, words, report } = shared(score(low(['A3'])));
    expect(plays.right).toBe('67+76=1+5');
    expect(plays.left).toMatch(/^60=\d 57=\d$/);
    expect(report.lines[1]!.fingered).toBe(2);
    expect(words).toEqual(['l.h. below']);
    // What it cannot hold to the end it does not take.
    expect(shared(score(low(['A2']))).words).toEqual([]);
  });

  it('keys that the giving hand holds on from before stay with it', () => {
    const held = note('G4', WHOLE, { voice: '2' });
    const right = `${rest(8)}${chord(['C4', 'E5'], { duration: 8 })}${backup(WHOLE)}${held}`;
    const { plays, words } = shared(grand([right, low(['B3'])]));
    expect(plays.right).toMatch(/^67=\d 76=\d$/);
    expect(plays.left).toMatch(/^59=\d 60=\d$/);
    expect(words).toEqual(['l.h. below']);
  });

  it('a key that both hands are written to strike is one key of the hand that takes it', () => {
    const { plays, report } = shared(grand([chord(TENTH), low(['G3', 'C4'])]));
    expect(plays).toEqual({ right: '67+76=1+5', left: expect.stringMatching(/^55\+60=\d\+\d$/) });
    expect(report.lines[1]!.notes).toBe(3);
  });

  it('a digit in print keeps its note with its hand, and binds the rest of the chord', () => {
    const free = silent();
    const given = (finger: number, pitch: string) => chord(TENTH, { notations: { [pitch]: digit(finger) } });
    const own = shared(grand([given(1, 'C4'), free]));
    expect(own.words).toEqual([]);
    expect(own.report.warnings.map(({ code }) => code)).toEqual(['DIGIT_CONFLICT']);
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

  it('only chosen measures get words, and tell of them', () => {
    const both = grand([chord(TENTH), silent()], [chord(TENTH), silent()]);
    const { words, told } = shared(both, { measures: { from: '2', to: '2' } });
    expect(words).toHaveLength(1);
    expect(told.map((own) => own.length)).toEqual([1, 1]);
  });

  it('sparse digits always name the finger of a note that is taken', () => {
    const run = ['C4', 'D4', 'E4', 'F4'].map((pitch) => chord([pitch], { duration: 4 })).join('');
    const score = grand(
      [chord(TENTH), low(['A3', 'B3'])],
      [chord(TENTH), low(['A3', 'B3'])],
      [run, silent()],
    );
    const { output, words } = shared(score, { digits: 'sparse' });
    expect(words).toHaveLength(2);
    const taken = [
      ...output.matchAll(/<note>(?:(?!<\/note>).)*<step>C<\/step><octave>4<\/octave>.*?<\/note>/gs),
    ];
    expect(taken.slice(0, 2).map(([own]) => /<fingering[^>]*>(\d)/.exec(own)?.[1])).toEqual(['1', '1']);
  });

  it('two players at one part share each with themselves', () => {
    const staves = [1, 2, 3, 4] as const;
    const voice = (staff: number) => ({ staff, voice: `${staff * 4 - 3}` });
    const wide = (staff: number) =>
      TENTH.map((pitch, at) => note(pitch, WHOLE, { ...voice(staff), lead: at ? '<chord/>' : '' })).join('');
    const content = staves
      .map((staff) =>
        staff === 3
          ? wide(3)
          : staff === 4
            ? note('B3', WHOLE, voice(4))
            : note(staff === 1 ? 'C6' : 'C5', WHOLE, voice(staff)),
      )
      .join(backup(WHOLE));
    const { report } = shared(onePart([`${attributes(4, 4)}${content}`]));
    expect(report.lines.map(({ hand, slices }) => `${hand} ${slices[0]!.keys.join('+')}`)).toEqual([
      'right 84',
      'left 72',
      'right 67+76',
      'left 59+60',
    ]);
    expect(report.lines.map(({ shared: own }) => own?.length)).toEqual([0, 0, 1, 1]);
  });

  it('what is read of a marked score gives no other note away', () => {
    const run = ['C5', 'D5', 'E5', 'F5'].map((pitch) => chord([pitch], { duration: 4 })).join('');
    const { output } = shared(grand([chord(TENTH), silent()], [run, silent()]));
    const { lines } = planDigits(output);
    expect(lines.map(({ line }) => `${line.hand} ${line.slices.length}`)).toEqual(['right 5']);
  });
});
