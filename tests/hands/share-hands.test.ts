import { annotate, planDigits } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, backup, note, onePart, rest } from '../musicxml/read-source.js';
import { chord, grand, low, shared, silent, TENTH, WHOLE } from './shared-chords.js';

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
    expect(told[1]).toEqual(["the right hand takes E♭4 of the left hand's chord"]);
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

  it('the legend says whose hand the word means, and no more', () => {
    const score = grand([chord(TENTH), low(['G3', 'B3'])]);
    const { output } = shared(score, { legend: true });
    const legend = [...output.matchAll(/<\?handline legend[^>]*\?>[\s\S]*?<words[^>]*>([^<]*)</g)].map(
      ([, line]) => line!.replaceAll('\u00a0', '').trim(),
    );
    expect(legend.join(' ')).toContain('l.h.: the left hand takes these notes');
    expect(output).not.toContain('r.h.:');
  });

  it('nothing changes without the option', () => {
    const score = grand([chord(TENTH), low(['G3', 'B3'])]);
    const { output, report } = annotate(score, { span: '8th', layers: [] });
    expect(output).toBe(annotate(score, { span: '8th', layers: [], shareHands: false }).output);
    expect(output).not.toContain('l.h.');
    expect(report.warnings.map(({ code }) => code)).toEqual(['UNPLAYABLE']);
    for (const line of report.lines) expect(line).not.toHaveProperty('shared');
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
