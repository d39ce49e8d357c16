import { annotate, review, reviewText, warningText } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { MESSAGES } from '#core/messages/messages.js';
import type { Language } from '#core/options/options.js';
import { attributes, note, onePart } from '../musicxml/read-source.js';

const LANGUAGES = Object.keys(MESSAGES) as Language[];

/** Every text of a language by its path. */
function textsOf(words: object, path = ''): readonly (readonly [string, string])[] {
  return Object.entries(words).flatMap(([name, value]: [string, unknown]) =>
    typeof value === 'string' ? [[path + name, value] as const] : textsOf(value as object, `${path}${name}.`),
  );
}
const gapsIn = (text: string) => (text.match(/\{\w+\}/g) ?? []).toSorted();

describe.each(LANGUAGES)('%s', (language) => {
  it('has every message, with all that is filled in', () => {
    const english = new Map(textsOf(MESSAGES.en));
    const own = textsOf(MESSAGES[language]);
    expect(own.map(([path]) => path).toSorted()).toEqual([...english.keys()].toSorted());
    for (const [path, text] of own) {
      // In English the other hand is named again.
      const gaps = gapsIn(text).filter((gap) => gap !== '{other}');
      expect([path, gaps]).toEqual([path, gapsIn(english.get(path)!).filter((gap) => gap !== '{other}')]);
      if (language !== 'en' && text.length > 12) expect(text).not.toBe(english.get(path));
    }
  });
});

const chord = (...pitches: string[]) =>
  pitches.map((pitch, at) => note(pitch, 4, { lead: at === 0 ? '' : '<chord/>' })).join('');
const WIDE = onePart([attributes() + chord('B2', 'C4', 'B5')]);

describe('a chord beyond reach', () => {
  it.each([
    ['en', 'beat 1: the right hand cannot reach all keys; roll the chord, or omit B5'],
    [
      'de',
      'Zählzeit 1: die rechte Hand erreicht nicht alle Tasten; möglich ist: den Akkord brechen, oder das obere H weglassen',
    ],
    [
      'fr',
      'temps 1 : la main droite n’atteint pas toutes les touches ; possible : arpéger l’accord, ou omettre le si supérieur',
    ],
  ] as const)('%s', (language, message) => {
    const { warnings, lines } = annotate(WIDE, { language }).report;
    expect(warnings.map((own) => own.message)).toEqual([message]);
    expect(message.endsWith(lines[0]!.unreachable[0]!.message)).toBe(true);
  });

  it.each([
    ['en', 'roll the chord, or omit C4'],
    ['de', 'den Akkord brechen, oder das untere C weglassen'],
    ['fr', 'arpéger l’accord, ou omettre le do inférieur'],
    ['es', 'arpegiar el acorde, u omitir el do inferior'],
    ['it', 'arpeggiare l’accordo, oppure omettere il do inferiore'],
  ] as const)('of two keys of one name says which: %s', (language, message) => {
    const octave = note('C4', 4) + note('C5', 4, { lead: '<chord/>' });
    const { lines } = annotate(onePart([attributes() + octave]), { language, span: '7th' }).report;
    expect(lines[0]!.unreachable.map((own) => own.message)).toEqual([message]);
  });

  it('is refused in English, as errors are, where warnings are errors', () => {
    expect(() => annotate(WIDE, { language: 'de', strict: true })).toThrow('cannot reach all keys');
  });
});

it('a fault of the file is told in the language asked for, with its place', () => {
  const text = onePart([note('C5', 4)]);
  const { warnings } = annotate(text, { language: 'it', file: 'a.xml' }).report;
  expect(warnings.map((own) => warningText(own, 'it'))).toEqual([
    expect.stringMatching(
      /^a\.xml: parte P1, misura 1, riga \d+, colonna \d+: <divisions> manca; si suppone 1/,
    ),
  ]);
  expect(warningText(annotate(text).report.warnings[0]!)).toMatch(
    /^part P1, measure 1, line \d+, column \d+: has no/,
  );
});

describe('digits that no hand can take together', () => {
  const pitches = ['C5', 'E5', 'G5'].map((pitch, at) =>
    note(pitch, 4, {
      lead: at === 0 ? '' : '<chord/>',
      notations: `<technical><fingering>${[5, 3, 1][at]}</fingering></technical>`,
    }),
  );
  const score = onePart([attributes() + pitches.join('')]);

  it.each([
    ['en', '(5 on C5, 3 on E5, 1 on G5)'],
    ['de', '(5 auf C, 3 auf E, 1 auf G)'],
    ['fr', '(5 sur do, 3 sur mi, 1 sur sol :'],
    ['es', '(5 en do, 3 en mi, 1 en sol:'],
    ['it', '(5 su do, 3 su mi, 1 su sol:'],
  ] as const)('are named with their keys in %s', (language, digits) => {
    const [warning] = annotate(score, { language }).report.warnings;
    expect(warning).toMatchObject({ code: 'DIGIT_CONFLICT', message: expect.stringContaining(digits) });
  });
});

it.each([
  ['en', '1 of 2 notes has a digit.', 'The other note is'],
  ['de', '1 von 2 Noten hat eine Ziffer.', 'Die andere Note ist'],
  ['fr', '1 note sur 2 a un chiffre.', 'L’autre note est'],
  ['es', '1 de 2 notas tiene número.', 'La otra nota se'],
  ['it', '1 nota su 2 ha un numero.', 'L’altra nota è'],
] as const)('a review speaks of one digit and one note as one, in %s', (language, head, inferred) => {
  const digit = '<technical><fingering>1</fingering></technical>';
  const score = onePart([attributes() + note('C5', 4, { notations: digit }) + note('D5', 4)]);
  const text = reviewText(review(score, { language }), { title: 'x' });
  expect(text).toContain(head);
  expect(text).toContain(inferred);
});
