import { Chord, Interval, Key, Note, Scale } from 'tonal';
import { describe, expect, it } from 'vitest';
import { signatureAlter } from '#core/drill/engraving/accidentals.js';
import { CHORD_KINDS, type ChordKind } from '#core/drill/theory/chords.js';
import { allTonics, chordLadder, type Ladder, scaleLadder } from '#core/drill/theory/keys.js';
import { keyOf, octaveOf, type Pitch, stepOf } from '#core/drill/theory/pitch.js';
import { SCALE_KINDS, type ScaleKind } from '#core/drill/theory/scales.js';
import { parseTonic, SPELLINGS, type Tonic, tonicName } from '#core/drill/theory/tonic.js';
import { HandlineError } from '#core/score/errors.js';

/** tonal's names: the outside reference for every spelling. */
const TONAL_SCALES: Readonly<Record<Exclude<ScaleKind, 'chromatic'>, string>> = {
  major: 'major',
  'natural-minor': 'aeolian',
  'harmonic-minor': 'harmonic minor',
  'melodic-minor': 'melodic minor',
  dorian: 'dorian',
  phrygian: 'phrygian',
  lydian: 'lydian',
  mixolydian: 'mixolydian',
  locrian: 'locrian',
  'whole-tone': 'whole tone',
  'major-pentatonic': 'major pentatonic',
  'minor-pentatonic': 'minor pentatonic',
  'octatonic-whole-half': 'diminished',
  'octatonic-half-whole': 'half-whole diminished',
};
const TONAL_CHORDS: Readonly<Record<ChordKind, string>> = {
  major: 'M',
  minor: 'm',
  diminished: 'dim',
  augmented: 'aug',
  'dominant-seventh': '7',
  'major-seventh': 'maj7',
  'minor-seventh': 'm7',
  'half-diminished-seventh': 'm7b5',
  'diminished-seventh': 'dim7',
  'minor-major-seventh': 'mMaj7',
  'augmented-seventh': '7#5',
  'augmented-major-seventh': 'maj7#5',
};
/**
 * Semitones from note to note. Modes: H. Glarean, Dodecachordon (1547), as the white keys from D, E, F, G (and B, which
 * Glarean rejects); octatonic: O. Messiaen, Technique de mon langage musical (1944), second mode. Both from memory.
 */
const PUBLISHED: Readonly<Partial<Record<ScaleKind, string>>> = {
  dorian: '2122212',
  phrygian: '1222122',
  lydian: '2221221',
  mixolydian: '2212212',
  locrian: '1221222',
  'octatonic-half-whole': '12121212',
  'octatonic-whole-half': '21212121',
};

const SYMMETRICAL: readonly ScaleKind[] = ['whole-tone', 'octatonic-whole-half', 'octatonic-half-whole'];
const ALL: readonly Tonic[] = SPELLINGS.flat();
const keyed = SCALE_KINDS.filter((kind) => kind !== 'chromatic');

function named(pitch: Pitch): string {
  const sign = pitch.alter < 0 ? 'b' : '#';
  return `${'CDEFGAB'[stepOf(pitch)]}${sign.repeat(Math.abs(pitch.alter))}${octaveOf(pitch.diatonic)}`;
}

const row = ({ at, size }: Ladder, direction: 'up' | 'down' = 'up'): string[] =>
  Array.from({ length: size + 1 }, (_, place) => named(at(place, 4, direction)));

/** undefined where the key would need more than seven sharps or flats. */
function ifWritten(make: () => Ladder): Ladder | undefined {
  try {
    return make();
  } catch (error) {
    expect(error).toBeInstanceOf(HandlineError);
    return undefined;
  }
}

/** The names of an octave, from a list of pitch classes, as tonal writes them in octave 4 and up. */
function inOctaves(names: readonly string[]): string[] {
  const first = `${names[0]}4`;
  return [...names.map((name) => Note.transpose(first, Interval.distance(names[0]!, name))), `${names[0]}5`];
}

describe('spelling', () => {
  it.each(keyed)('of %s is tonal’s in every key that can be written', (kind) => {
    let written = 0;
    for (const tonic of ALL) {
      const ladder = ifWritten(() => scaleLadder(tonic, kind));
      if (!ladder) continue;
      written++;
      const outside = inOctaves(Scale.get(`${tonicName(tonic)} ${TONAL_SCALES[kind]}`).notes);
      // Symmetrical scales change a letter where tonal's spelling would take double accidentals.
      const respelled = SYMMETRICAL.includes(kind) && outside.some((name) => /##|bb/.test(name));
      if (respelled)
        expect(row(ladder).map((name) => Note.midi(name))).toEqual(outside.map((name) => Note.midi(name)));
      else expect(row(ladder)).toEqual(outside);
      expect(row(ladder).map((name) => Note.midi(name))).toEqual(
        Array.from({ length: ladder.size + 1 }, (_, place) => keyOf(ladder.at(place, 4, 'up'))),
      );
    }
    expect(written).toBeGreaterThanOrEqual(12);
  });

  it('of the melodic minor on its way down is that of the natural minor', () => {
    for (const tonic of allTonics('melodic-minor')) {
      const down = row(scaleLadder(tonic, 'melodic-minor'), 'down');
      expect(down).toEqual(inOctaves(Scale.get(`${tonicName(tonic)} aeolian`).notes));
    }
  });

  it.each(CHORD_KINDS)('of the %s chord is tonal’s on every root that can be written', (kind) => {
    for (const tonic of ALL) {
      const ladder = ifWritten(() => chordLadder(tonic, kind));
      if (ladder) {
        const { notes } = Chord.getChord(TONAL_CHORDS[kind], tonicName(tonic));
        expect(
          row(ladder)
            .slice(0, -1)
            .map((name) => Note.pitchClass(name)),
        ).toEqual(notes);
      }
    }
  });

  it('of the chromatic scale takes every key, sharps up and flats down, nothing doubly altered', () => {
    for (const tonic of ALL) {
      const { at } = scaleLadder(tonic, 'chromatic');
      for (const direction of ['up', 'down'] as const) {
        const pitches = Array.from({ length: 49 }, (_, place) => at(place, 2, direction));
        pitches.forEach((pitch, place) => {
          expect(keyOf(pitch)).toBe(keyOf(pitches[0]!) + place);
          expect(Note.midi(named(pitch))).toBe(keyOf(pitch));
          expect(Math.abs(pitch.alter)).toBeLessThanOrEqual(1);
          const isTonic = place % 12 === 0;
          const sign = tonic.alter === 0 ? (direction === 'up' ? 1 : -1) : tonic.alter;
          if (!isTonic && pitch.alter !== 0) expect(pitch.alter).toBe(sign);
        });
      }
    }
  });

  it.each(Object.entries(PUBLISHED) as [ScaleKind, string][])(
    'steps of %s are as published',
    (kind, published) => {
      const { at, size } = scaleLadder(parseTonic('C'), kind);
      const steps = Array.from(
        { length: size },
        (_, place) => keyOf(at(place + 1, 4, 'up')) - keyOf(at(place, 4, 'up')),
      );
      expect(steps.join('')).toBe(published);
    },
  );
});

describe('signatures', () => {
  it('are tonal’s for every major and minor key', () => {
    for (const tonic of ALL) {
      const major = ifWritten(() => scaleLadder(tonic, 'major'));
      if (major) expect(major.fifths).toBe(Key.majorKey(tonicName(tonic)).alteration);
      for (const kind of ['natural-minor', 'harmonic-minor', 'melodic-minor'] as const) {
        const minor = ifWritten(() => scaleLadder(tonic, kind));
        if (minor) expect(minor.fifths).toBe(Key.minorKey(tonicName(tonic)).alteration);
      }
    }
  });

  it.each(['major', 'natural-minor', 'dorian', 'phrygian', 'lydian', 'mixolydian', 'locrian'] as const)(
    'make every note of %s without an accidental',
    (kind) => {
      for (const tonic of ALL) {
        const ladder = ifWritten(() => scaleLadder(tonic, kind));
        for (let place = 0; ladder && place < ladder.size; place++) {
          const pitch = ladder.at(place, 4, 'up');
          expect(pitch.alter).toBe(signatureAlter(ladder.fifths, stepOf(pitch)));
        }
      }
    },
  );

  it('of the twelve keys are the usual ones', () => {
    expect(allTonics('major').map(tonicName).join(' ')).toBe('C Db D Eb E F Gb G Ab A Bb B');
    expect(allTonics('harmonic-minor').map(tonicName).join(' ')).toBe('C C# D Eb E F F# G G# A Bb B');
  });

  it.each(SCALE_KINDS)(
    'can be written for all twelve keys of %s, with no double accidental but leading notes',
    (kind) => {
      for (const tonic of allTonics(kind)) {
        const { at, size } = scaleLadder(tonic, kind);
        const doubles = Array.from({ length: size }, (_, place) => at(place, 4, 'up')).filter(
          ({ alter }) => Math.abs(alter) > 1,
        );
        expect(doubles.length).toBeLessThanOrEqual(
          kind === 'harmonic-minor' || kind === 'melodic-minor' ? 1 : 0,
        );
      }
    },
  );
});
