import { describe, expect, it } from 'vitest';
import { annotate, clear } from '#core/index.js';
import type { AnnotateOptions } from '#core/options/options.js';

/** A melody over a held note that begins with it, in two voices of the right hand, each first note with these digits. */
function unison(upper: string, held: string, staff = 1): string {
  const digit = (text: string) =>
    text && `<notations><technical><fingering>${text}</fingering></technical></notations>`;
  const note = (step: string, duration: number, voice: number, text = '', on = 1) =>
    `<note><pitch><step>${step}</step><octave>5</octave></pitch><duration>${duration}</duration><voice>${voice}</voice>` +
    `<staff>${on}</staff>${digit(text)}</note>`;
  const melody = `${note('E', 1, 1, upper)}${['F', 'G', 'F'].map((step) => note(step, 1, 1)).join('')}`;
  const list = '<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list>';
  return (
    `<score-partwise>${list}<part id="P1"><measure number="1"><attributes><divisions>1</divisions><staves>2</staves></attributes>` +
    `${melody}<backup><duration>4</duration></backup>${note('E', 4, 2, held, staff)}</measure></part></score-partwise>`
  );
}

/** The digits in print at the first note of the melody and at the held one, and what the report says of both. */
function printed(score: string, options: AnnotateOptions = {}) {
  const { output, report } = annotate(score, { layers: [], ...options });
  expect(clear(output).output).toBe(score);
  const notes = [...output.matchAll(/<note>[\s\S]*?<\/note>/g)].map(([text]) => text);
  const digits = [notes[0]!, notes.at(-1)!].map((text) => /<fingering[^>]*>([^<]*)/.exec(text)?.[1]);
  const [line] = report.lines;
  return {
    digits,
    told: line!.slices[0]!.notes.map(({ digit }) => digit),
    counts: [line!.fingered, line!.kept],
  };
}

describe('a unison of two voices of a hand', () => {
  it('has its digit once, at the outer voice, and is reported as fingered at both', () => {
    const { digits, told, counts } = printed(unison('', ''));
    expect(digits).toEqual([expect.stringMatching(/^[1-5]$/), undefined]);
    expect([told, counts]).toEqual([
      ['ours', 'ours'],
      [5, 0],
    ]);
  });

  it.each([
    ['4', ''],
    ['', '4'],
    ['4', '4'],
  ])('has no digit of ours beside one of the file: "%s" and "%s"', (upper, held) => {
    const { digits, told, counts } = printed(unison(upper, held));
    expect(digits.map((digit) => digit ?? '')).toEqual([upper, held]);
    expect([told, counts]).toEqual([
      ['given', 'given'],
      [3, 2],
    ]);
  });

  it('has all digits of the file replaced', () => {
    for (const [upper, held] of [
      ['5', ''],
      ['', '5'],
      ['5', '5'],
    ] as const) {
      const { digits, told } = printed(unison(upper, held), { existing: 'replace' });
      expect(digits.map((digit) => digit !== undefined)).toEqual([upper !== '', held !== '']);
      expect(told).toEqual(['ours', 'ours']);
    }
  });
});
