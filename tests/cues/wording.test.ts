import { describe, expect, it } from 'vitest';
import { CUE_KEYS, CUE_LAYERS, type CueKey } from '#core/cues/keys.js';
import {
  cautionText,
  cueMeanings,
  cueWording,
  LANGUAGES,
  legendText,
  printedLines,
} from '#core/cues/wording.js';
import type { Language } from '#core/options/options.js';
import { HandlineError } from '#core/score/errors.js';

const CODES = Object.keys(LANGUAGES) as Language[];
const LONGEST_CUE = 20;
const LONGEST_FULL = 30;
/** Letters of a line of a short crossing; verovio set one of ten on the next but one. */
const LONGEST_OF_RUN = 9;
/** Letters of a word that stands at every note now and then, and over barlines, so that verovio breaks systems badly (docs/cues.md). */
const LONGEST_OF_DEPTH = 6;

describe('every language', () => {
  it('is one of five', () => {
    expect(CODES.sort()).toEqual(['de', 'en', 'es', 'fr', 'it']);
  });

  it.each(CODES)('%s is complete, short and distinct', (code) => {
    const { cues, meanings, caution } = LANGUAGES[code];
    for (const table of [cues, meanings]) {
      expect(Object.keys(table).sort()).toEqual([...CUE_KEYS].sort());
      expect(new Set(Object.values(table).map((text) => text.toLowerCase())).size).toBe(CUE_KEYS.length);
    }
    // The fuller texts say which part of the arm, what leans or passes, or from what it turns; a long gap has room for them.
    for (const [key, text] of Object.entries(LANGUAGES[code].full)) {
      expect(['crossing', 'depth', 'roll']).toContain(CUE_LAYERS[key as CueKey]);
      expect([...text].length, text).toBeLessThanOrEqual(LONGEST_FULL);
      expect([...text].length, text).toBeGreaterThan([...cues[key as CueKey]].length);
      expect(text).not.toMatch(/[,\n]/);
    }
    // In a scale these follow each other three and four notes apart.
    for (const key of ['thumb-passes', 'over-thumb'] as const)
      for (const line of printedLines(cues[key]).split('\n'))
        expect([...line.trimEnd()].length, line).toBeLessThanOrEqual(LONGEST_OF_RUN);
    for (const key of ['in', 'far-in', 'out', 'far-out'] as const)
      for (const word of cues[key].split(' '))
        expect([...word].length, word).toBeLessThanOrEqual(LONGEST_OF_DEPTH);
    for (const text of Object.values(cues)) {
      expect([...text].length, text).toBeLessThanOrEqual(LONGEST_CUE);
      expect(text).toBe(text.trim());
      // A comma parts two cues of one text.
      expect(text).not.toMatch(/[,\n]/);
    }
    for (const text of [...Object.values(meanings), caution]) expect(text.length).toBeGreaterThan(10);
    // Composed letters, so that a score's search finds what a reader types.
    for (const text of [...Object.values(cues), ...Object.values(meanings), caution]) {
      expect(text).toBe(text.normalize('NFC'));
    }
  });

  it('says its own words: no two languages share a table', () => {
    for (const key of ['in', 'out', 'thumb-passes', 'over-thumb', 'turn-afresh'] as const) {
      expect(new Set(CODES.map((code) => LANGUAGES[code].cues[key])).size).toBe(CODES.length);
    }
  });

  it.each([
    ['en', /pain.*numbness.*fatigue.*teacher.*clinician/s],
    ['de', /Schmerz.*Taubheit.*Ermüdung.*Lehrkraft.*ärztlich/s],
    ['fr', /douleur.*engourdissement.*fatigue.*professeur.*médecin/s],
    ['es', /dolor.*entumecimiento.*fatiga.*profesor.*sanitario/s],
    ['it', /dolore.*intorpidimento.*stanchezza.*insegnante.*medico/s],
  ] as const)('%s carries the whole caution', (code, caution) => {
    expect(cautionText(code)).toMatch(caution);
  });
});

describe("a user's own wording", () => {
  it('replaces single texts', () => {
    const wording = cueWording('de', { in: 'rein' });
    expect(wording.in).toBe('rein');
    expect(wording.out).toBe('heraus');
  });

  it('refuses cues that do not exist and names them', () => {
    const call = () => cueWording('en', { in: 'x', inward: 'y', toString: 'z' });
    expect(call).toThrow(HandlineError);
    expect(call).toThrow(expect.objectContaining({ code: 'OPTION' }));
    expect(call).toThrow(/no such cue: inward, toString; the cues are .*thumb-passes/);
  });

  it.each(['', '  ', 'a\nb', 'a\u0000', 'x'.repeat(61), 5])('refuses %j as a text', (text) => {
    const own = { in: text } as unknown as Record<string, string>;
    expect(() => cueWording('en', own)).toThrow(/wording: the text of in must be one line/);
    expect(() => cueWording('en', own)).toThrow(expect.objectContaining({ code: 'OPTION' }));
  });

  it('may be sixty characters long', () => {
    expect(cueWording('en', { in: 'x'.repeat(60) }).in).toHaveLength(60);
  });

  it('stands beside the fuller text in the list of meanings, unless it replaces it', () => {
    const meanings = cueMeanings('en', { in: 'closer' });
    expect(meanings).toHaveLength(CUE_KEYS.length + 1);
    expect(meanings.at(-1)).toEqual({
      texts: ['– –'],
      meaning: 'the move goes on, up to the end of the dashes',
    });
    const of = (key: CueKey) => meanings[CUE_KEYS.indexOf(key)]!.texts;
    expect(of('in')).toEqual(['closer']);
    expect(of('out')).toEqual(['out', 'forearm out']);
    expect(of('rotate')).toEqual(['rotate']);
    expect(meanings[CUE_KEYS.indexOf('rotate')]!.meaning).toBe('the forearm turns to and fro with the notes');
  });
});

/** On one line, with single spaces. */
const plain = (legend: string) => legend.replaceAll(/\s+/g, ' ');

describe('the legend', () => {
  it.each(CODES)(
    '%s explains the cues of the chosen layers and ends with the caution, in short lines',
    (code) => {
      const legend = legendText(code, ['depth']);
      const depth = CUE_KEYS.filter((key) => CUE_LAYERS[key] === 'depth');
      const { cues, meanings } = LANGUAGES[code];
      const whole = [...depth.map((key) => `${cues[key]}: ${meanings[key]}`), cautionText(code)];
      expect(legend.replaceAll(/\s+/g, ' ').trim()).toBe(whole.join(' '));
      for (const line of legend.split('\n')) expect(line.trim().length).toBeLessThanOrEqual(26);
      for (const text of whole) expect(`\n${legend}`).toContain(`\n${text.split(' ')[0]}`);
      // A short line is as wide as a long one.
      for (const line of legend.split('\n')) {
        const text = line.trim();
        const narrow = text.split(/[fijlt.,:;’' ]/u).length - 1;
        expect(line.length).toBe(text.length + Math.round(2 * (29 - text.length + 0.4 * narrow)));
      }
    },
  );

  it('leaves out what a score does not say, where its cues are given', () => {
    const lines = plain(legendText('en', ['depth', 'crossing'], {}, ['out', 'hand-over', 'out']));
    expect(lines).toMatch(
      /^hand over: this hand goes over the other out: the forearm moves away from the fallboard Fingering and cues are suggestions/,
    );
  });

  it.each(CODES)('%s explains the dashes behind a text where there are some', (code) => {
    const { dashes } = LANGUAGES[code];
    expect(plain(legendText(code, [], {}, [], [], true))).toContain(`– –: ${dashes} `);
    expect(legendText(code, [], {}, [])).not.toContain('– –');
  });

  it.each(CODES)('%s explains the marks of the hands that take notes of the other', (code) => {
    const { hands, takes } = LANGUAGES[code];
    const lines = plain(legendText(code, [], {}, [], ['right', 'left']));
    expect(lines).toContain(`${hands.right}: ${takes.right} ${hands.left}: ${takes.left} `);
  });

  it("uses the user's own words", () => {
    expect(plain(legendText('en', ['depth'], { in: 'closer' }))).toMatch(
      /closer: the forearm moves towards the fallboard /,
    );
  });
});

describe('in print', () => {
  it('parts stand on lines of their own, and long ones are broken at nine characters', () => {
    expect(printedLines('thumb passes, in')).toBe('thumb\npasses\nin');
    expect(printedLines('hand over')).toBe('hand over');
    expect(printedLines('untersetzen')).toBe('untersetzen');
    expect(printedLines('lean in over the key')).toBe('lean in\nover the\nkey');
  });
});
