import { describe, expect, it } from 'vitest';
import type { Finger } from '#core/score/model.js';
import { note, score } from './write-score.js';
import { clear, mark } from './write-source.js';

/* Scores that a program has saved without our instructions, and that somebody has changed before or after. */

const on = (step: string, after = '') => note({ after }).replace('<step>C', `<step>${step}`);
const fingering = (digit: string) =>
  `<notations><technical><fingering>${digit}</fingering></technical></notations>`;
const measure = (...notes: readonly string[]) => notes.join('\n');

/** Notes with digits 1, 2, 3 ... of ours and a cue before the first, as saved without instructions. */
function saved(notes: readonly string[], replaceDigits = false): string {
  const digits = notes.map((_, nth) => ({
    part: 0,
    note: nth,
    finger: (nth + 1) as Finger,
    placement: 'above' as const,
  }));
  const cues = [{ part: 0, note: 0, text: 'in', placement: 'above' as const }];
  return mark(score(measure(...notes)), { digits, cues, replaceDigits }).replaceAll(
    /<\?handline (?:digit|cue|kept)[^?]*\?>/g,
    '',
  );
}

/** Of every note its step and its digits: `C1 D E53`. */
function digitsIn(text: string): string {
  return [...text.matchAll(/<note>.*?<\/note>/gs)]
    .map(([own]) => {
      const digits = [...own.matchAll(/<fingering[^>]*>([^<]*)/g)].map(([, digit]) => digit);
      return `${/<step>(.)/.exec(own)![1]}${digits.join('')}`;
    })
    .join(' ');
}

function cleared(text: string) {
  const { text: output, warnings } = clear(text);
  expect(output).not.toContain('handline');
  return { digits: digitsIn(output), warnings: warnings.map(({ code, message }) => `${code}: ${message}`) };
}

const three = [on('C'), on('D'), on('E')];
/** What a note without marks looks like behind its staff, and with our digit. */
const noteOf = (text: string, nth: number) => [...text.matchAll(/ *<note>.*?<\/note>\n?/gs)][nth]![0];

describe('without instructions', () => {
  it('all digits go, and nothing is told', () => {
    const text = saved(three);
    expect(digitsIn(text)).toBe('C1 D2 E3');
    expect(cleared(text)).toEqual({ digits: 'C D E', warnings: [] });
  });

  it('they go from their own notes where others with digits of the user’s were put in', () => {
    const text = saved(three);
    const more = text.replace(noteOf(text, 1), `${on('D', fingering('4'))}\n${noteOf(text, 1)}`);
    expect(digitsIn(more)).toBe('C1 D4 D2 E3');
    expect(cleared(more)).toEqual({ digits: 'C D4 D E', warnings: [] });
  });

  it('a digit that was changed is told of and left; one that was taken out is missed by nobody', () => {
    const text = saved(three);
    const changed = cleared(text.replace('>2</fingering>', '>5</fingering>'));
    expect(changed.digits).toBe('C D5 E');
    expect(changed.warnings).toEqual([
      "NOT_OURS: a digit has been changed since we wrote it; it was left as the user's own",
    ]);
    const gone = text.replace(/<notations>(?:(?!<notations>).)*>2<\/fingering>.*?<\/notations>/s, '');
    expect(digitsIn(gone)).toBe('C1 D E3');
    expect(cleared(gone)).toEqual({ digits: 'C D E', warnings: [] });
  });

  it('a note that is gone is told of where a digit is left that may be ours', () => {
    const text = saved(three);
    const without = text.replace(noteOf(text, 1), '');
    expect(cleared(without)).toEqual({ digits: 'C E', warnings: [] });
    const instead = text.replace(noteOf(text, 1), `${on('F', fingering('2'))}\n`);
    expect(cleared(instead)).toEqual({
      digits: 'C F2 E',
      warnings: [
        'NOT_OURS: a digit of ours belongs to notes near here that were changed since; what stands there was left',
      ],
    });
    const both = instead.replace(noteOf(instead, 2), `${on('G', fingering('3'))}\n`);
    expect(cleared(both).warnings).toEqual([
      'NOT_OURS: 2 digits of ours belong to notes near here that were changed since; what stands there was left',
    ]);
  });
});

describe('digits of the user’s that ours had replaced', () => {
  const own = [on('C', fingering('5')), on('D', fingering('4')), on('E')];

  it('come back in their place', () => {
    expect(digitsIn(saved(own, true))).toBe('C1 D2 E3');
    expect(cleared(saved(own, true))).toEqual({ digits: 'C5 D4 E', warnings: [] });
  });

  it('come back beside what stands there where ours was changed, and alone where it was taken out', () => {
    const text = saved(own, true);
    const changed = cleared(text.replace('>2</fingering>', '>3</fingering>'));
    expect(changed.digits).toBe('C5 D43 E');
    expect(changed.warnings).toHaveLength(1);
    const gone = text.replace(/<fingering[^>]*>2<\/fingering>/, '');
    expect(cleared(gone)).toEqual({ digits: 'C5 D4 E', warnings: [] });
  });

  it('do not come back twice where somebody has put them back', () => {
    const text = saved(own, true);
    const back = text.replace('>2</fingering>', '>4</fingering>');
    expect(cleared(back)).toEqual({ digits: 'C5 D4 E', warnings: [] });
  });

  it('are told of, at the nearest note before, where their own is gone', () => {
    const text = saved(own, true);
    const lost = 'DIGIT_LOST: your digit 4, which ours replaced, cannot go back: its note was changed since';
    const without = text.replace(noteOf(text, 1), '');
    expect(cleared(without)).toEqual({ digits: 'C5 E', warnings: [lost] });
    const [warning] = clear(without).warnings;
    const line = without.slice(0, without.indexOf('<step>C')).split('\n').length;
    expect(warning!.place).toMatchObject({ part: 'P1', measure: '1', line });
  });
});

describe('where some instructions are left', () => {
  it('they tell of their own digits, and the records of the others', () => {
    const digits = [1, 2, 3].map((finger, nth) => ({
      part: 0,
      note: nth,
      finger: finger as Finger,
      placement: 'above' as const,
    }));
    const cues = [{ part: 0, note: 0, text: 'in', placement: 'above' as const }];
    const whole = mark(score(measure(...three)), { digits, cues });
    for (const kept of [1, 2, 3]) {
      const text = whole.replaceAll(/<\?handline digit (\d)\?>/g, (found, digit) =>
        Number(digit) === kept ? found : '',
      );
      expect(text).toContain(`<?handline digit ${kept}?>`);
      const { text: output, warnings } = clear(text);
      expect([digitsIn(output), warnings]).toEqual(['C D E', []]);
    }
  });
});

it('beside ours a digit of the user’s in the same wrapper stays, and what holds it', () => {
  const text = mark(score(measure(...three)), {
    digits: [{ part: 0, note: 1, finger: 2, placement: 'above' }],
  });
  const wrapped = text.replace('</technical>', '<up-bow/></technical>');
  expect(clear(wrapped).text).toMatch(/<technical>\s*<up-bow\/><\/technical>/);
  const own = text.replace('</technical>', '<fingering>5</fingering></technical>');
  expect(digitsIn(clear(own).text)).toBe('C D5 E');
});

describe('words', () => {
  const marked = saved(three);

  it('beside which something else was put are left, with that', () => {
    const dynamics = '<direction-type><dynamics><f/></dynamics></direction-type>';
    const text = marked.replace('</direction-type>', `</direction-type>${dynamics}`);
    const { text: output, warnings } = clear(text);
    expect(output).toContain(dynamics);
    expect(output).toContain('>in</words>');
    expect(warnings).toHaveLength(1);
  });

  it('are quoted up to sixty characters', () => {
    const message = (length: number) =>
      clear(marked.replace('>in</words>', `>${'x'.repeat(length)}</words>`)).warnings[0]!.message;
    expect(message(60)).toContain(`the words "${'x'.repeat(60)}" hold`);
    expect(message(61)).toContain(`the words "${'x'.repeat(60)}..." hold`);
  });

  it('of a cue carry the record of their part; no other words are written for it', () => {
    expect(marked.match(/<direction /g)).toHaveLength(1);
    expect(marked).toMatch(/font-family="[^"]*,handline-[0-9a-z]+\.n3\.a1c2e3"/);
  });
});
