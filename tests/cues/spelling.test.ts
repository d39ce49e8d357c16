import { describe, expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { reasonText } from '#core/cues/reasons.js';
import { keyName, spellingOf } from '#core/keyboard/key-names.js';
import { LANGUAGE_CODES, type Language } from '#core/options/options.js';
import { whoTakes } from '#core/pipeline/warnings.js';
import { attributes, backup, note, onePart } from '../musicxml/read-source.js';

/** Every letter from two flats to two sharps, from memory. */
const NAMES: Readonly<Record<Language, readonly string[]>> = {
  en: ['C', 'D', 'E', 'F', 'G', 'A', 'B'].flatMap((letter) => [
    `${letter} double flat`,
    `${letter} flat`,
    letter,
    `${letter} sharp`,
    `${letter} double sharp`,
  ]),
  de: [
    ['Ceses', 'Ces', 'C', 'Cis', 'Cisis'],
    ['Deses', 'Des', 'D', 'Dis', 'Disis'],
    ['Eses', 'Es', 'E', 'Eis', 'Eisis'],
    ['Feses', 'Fes', 'F', 'Fis', 'Fisis'],
    ['Geses', 'Ges', 'G', 'Gis', 'Gisis'],
    ['Asas', 'As', 'A', 'Ais', 'Aisis'],
    ['Heses', 'B', 'H', 'His', 'Hisis'],
  ].flat(),
  fr: ['do', 'ré', 'mi', 'fa', 'sol', 'la', 'si'].flatMap((name) => [
    `${name} double bémol`,
    `${name} bémol`,
    name,
    `${name} dièse`,
    `${name} double dièse`,
  ]),
  es: ['do', 're', 'mi', 'fa', 'sol', 'la', 'si'].flatMap((name) => [
    `${name} doble bemol`,
    `${name} bemol`,
    name,
    `${name} sostenido`,
    `${name} doble sostenido`,
  ]),
  it: ['do', 're', 'mi', 'fa', 'sol', 'la', 'si'].flatMap((name) => [
    `${name} doppio bemolle`,
    `${name} bemolle`,
    name,
    `${name} diesis`,
    `${name} doppio diesis`,
  ]),
};
const NATURALS = [0, 2, 4, 5, 7, 9, 11];

describe.each(LANGUAGE_CODES)('reasons in %s', (language) => {
  it('name every spelling of a key by its own name', () => {
    const named = NATURALS.flatMap((natural, step) =>
      [-2, -1, 0, 1, 2].map((alter) => {
        const spelling = { step, alter };
        const reason = { direction: 'in', finger: 3, cause: 'black-key', spelling } as const;
        const text = reasonText({ ...reason, key: 60 + natural + alter }, language);
        const plain = reasonText({ ...reason, key: 60, spelling: { step: 0, alter: 0 } }, language);
        // All that differs from what is said of C.
        const [before, after] = plain.split(NAMES[language][2]!.concat(' ')) as [string, string];
        expect(text.startsWith(before) && text.endsWith(after)).toBe(true);
        return text.slice(before.length, text.length - after.length - 1);
      }),
    );
    expect(named).toEqual(NAMES[language]);
  });

  // The same keys, written with flats and with sharps.
  const black = { flats: ['Ab', 'Bb', 'Db', 'Eb', 'Gb'], sharps: ['G#', 'A#', 'C#', 'D#', 'F#'] };
  it.each(['flats', 'sharps'] as const)('and of a report name keys as the score writes them: %s', (sign) => {
    const [a, b, d, e, g] = black[sign] as [string, string, string, string, string];
    const right = ['F4', 'G4', `${a}4`, `${b}4`, 'C5', `${d}5`, `${e}5`, 'F5'];
    const left = ['F3', `${e}3`, `${d}3`, 'C3', `${b}2`, `${a}2`, `${g}2`, 'F2'];
    const measures = Array.from(
      { length: 4 },
      (_, nth) =>
        (nth === 0 ? `${attributes(2, 2)}<sound tempo="60"/>` : '') +
        (nth % 2 === 0 ? right : right.toReversed()).map((pitch) => note(pitch, 1)).join('') +
        backup(8) +
        (nth % 2 === 0 ? left : left.toReversed())
          .map((pitch) => note(pitch, 1, { voice: '5', staff: 2 }))
          .join(''),
    );
    const { report } = annotate(onePart(measures), { language });
    const reasons = report.lines.flatMap(({ slices }) => slices.map(({ reason }) => reason));
    const names = NAMES[language];
    const [flats, sharps] = [1, 3].map((nth) => names.filter((_, at) => at % 5 === nth));
    const says = (of: readonly string[]) =>
      reasons.filter((text) => of.some((name) => ` ${text} `.includes(` ${name} `)));
    const [own, other] = sign === 'flats' ? [flats!, sharps!] : [sharps!, flats!];
    expect(says(own).length).toBeGreaterThan(4);
    expect(says(other)).toEqual([]);
  });
});

describe('reports', () => {
  const chord = (pitches: readonly string[], staff: 1 | 2) =>
    pitches
      .map((pitch, nth) =>
        note(pitch, 8, { staff, voice: staff === 1 ? '1' : '5', lead: nth > 0 ? '<chord/>' : '' }),
      )
      .join('');

  it.each([
    [['Bb2', 'F3', 'Db4', 'Bb4'], 'B♭4'],
    [['A#2', 'F3', 'C#4', 'A#4'], 'A♯4'],
  ] as const)('name what cannot be reached as it is written: %j', (pitches, name) => {
    const { report } = annotate(
      onePart([attributes(2, 2) + chord(pitches, 1) + backup(8) + chord(['C2'], 2)]),
    );
    const texts = report.lines.flatMap(({ unreachable }) => unreachable.map(({ message }) => message)).join();
    expect(texts).toContain(name);
    expect(texts).not.toContain(name === 'B♭4' ? '♯' : '♭');
  });

  it('name what the other hand takes as it is written', () => {
    const notes = [
      { key: 46, diatonic: 20 },
      { key: 49, diatonic: 22 },
    ];
    expect(whoTakes('left', [46, 49], notes, 'en')).toBe(
      "the left hand takes B♭2 and D♭3 of the right hand's chord",
    );
    expect(whoTakes('left', [46], [{ key: 46, diatonic: 19 }], 'en')).toContain('takes A♯2 of');
    for (const pitches of [
      ['Bb2', 'F4', 'Db5'],
      ['A#2', 'F4', 'C#5'],
    ]) {
      const text = onePart([attributes(2, 2) + chord(pitches, 1) + backup(8) + chord(['F2'], 2)]);
      const { report } = annotate(text, { shareHands: true });
      const said = report.lines.flatMap(({ shared }) => shared!.map(({ message }) => message)).join();
      expect(said).toContain(pitches[0] === 'Bb2' ? 'takes B♭2' : 'takes A♯2');
    }
  });

  it('spell a key from its place on the staff, two accidentals at most', () => {
    expect(keyName(46, spellingOf(46, 20))).toBe('B♭2');
    expect(keyName(46, spellingOf(46, 19))).toBe('A♯2');
    expect(keyName(46, spellingOf(46, 21))).toBe('C♭♭3');
    expect(spellingOf(46, 18)).toBeUndefined();
  });
});
