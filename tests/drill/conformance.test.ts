import { describe, expect, it } from 'vitest';
import { drill } from '#core/drill/drill.js';
import type { DrillOptions } from '#core/drill/options.js';
import { sectionsOf } from '#core/drill/sections.js';
import { drillSettings } from '#core/drill/settings.js';
import { CHORD_KINDS } from '#core/drill/theory/chords.js';
import { keyOf } from '#core/drill/theory/pitch.js';
import { SCALE_KINDS } from '#core/drill/theory/scales.js';
import type { Hand } from '#core/score/model.js';
import { schema } from '../conformance/schema.js';
import { displayStaves, verovioStaves } from './readers.js';

const SHEETS: Readonly<Record<string, DrillOptions>> = {
  '4 octaves': { keys: ['C', 'F#', 'Bb'], kinds: ['major', 'harmonic-minor'], octaves: 4 },
  'every kind of scale': {
    keys: 'all',
    kinds: SCALE_KINDS,
    octaves: 1,
    rhythms: [['eighth']],
  },
  'every chord, inverted': {
    keys: ['C', 'Ab'],
    patterns: ['arpeggios'],
    chords: CHORD_KINDS,
    inversions: true,
    octaves: 1,
  },
  'broken chords in triplets': {
    keys: ['Eb', 'B'],
    patterns: ['broken-chords'],
    rhythms: [['triplet-eighth']],
    metre: '12/8',
  },
  'contrary, 3 octaves': { keys: ['D', 'G'], motion: 'contrary', octaves: 3, kinds: ['melodic-minor'] },
  'thirds in one hand, a tenth apart': { keys: ['A', 'Db'], double: 'thirds', apart: 'tenth' },
  'sixths in one hand, separate': {
    keys: ['F#'],
    double: 'sixths',
    motion: 'separate',
    kinds: ['melodic-minor'],
  },
  'a book': {
    keys: ['D', 'Ab'],
    patterns: ['scales', 'arpeggios', 'broken-chords', 'cadences', 'five-finger'],
    kinds: ['natural-minor'],
    inversions: true,
    metre: '3/4',
    accents: 3,
  },
  'chromatic minor thirds': { keys: ['C', 'Gb'], kinds: ['chromatic'], double: 'thirds', octaves: 2 },
  'whole-tone thirds and sixths apart': {
    keys: ['D', 'Eb'],
    kinds: ['whole-tone'],
    double: 'thirds',
    apart: 'sixth',
    octaves: 1,
  },
  'octatonic sixths': {
    keys: ['C', 'Bb'],
    kinds: ['octatonic-whole-half', 'octatonic-half-whole'],
    double: 'sixths',
    octaves: 1,
  },
  fragments: { keys: ['Gb'], fragments: { from: 4, to: 5, starts: [0, 3] }, metre: '6/8' },
  awkward: { keys: ['B', 'F'], awkward: 6, fragments: { from: 6, to: 6 } },
  'right hand alone': { keys: ['Bb'], hands: 'right', octaves: 4 },
  'left hand alone, very high': { keys: ['C'], hands: 'left', start: 7, octaves: 1 },
  'left hand very low': { keys: ['C'], start: 2, octaves: 1, legend: true },
  'several rhythms': {
    title: 'Tides & <Weeks> “3”',
    keys: ['G'],
    rhythms: [
      ['dotted-eighth', 'sixteenth'],
      ['sixteenth', 'dotted-eighth'],
    ],
  },
};

/** MIDI numbers by the theory, as the sheet asks for them. */
function theory(options: DrillOptions): readonly (readonly number[])[] {
  const settings = drillSettings(options);
  const exercises = sectionsOf(settings, () => undefined).flatMap((section) => section.exercises);
  const played = exercises.flatMap((own) => settings.rhythms.map(() => own));
  const keys = (hand: Hand) =>
    played.flatMap(({ steps }) => steps[hand].flatMap(({ pitches }) => pitches.map(keyOf)));
  return settings.hands.map(keys);
}

const validate = schema();
const readers = { verovio: await verovioStaves(), display: displayStaves() };
const written: string[] = [];

describe.each(Object.entries(SHEETS))('%s', (_, options) => {
  const sheet = drill(options).output;
  const verovio = readers.verovio(sheet);
  const display = readers.display(sheet);
  written.push(sheet);

  it('is valid MusicXML 4.0', () => {
    expect(validate(sheet)).toEqual([]);
  });

  it('sounds in verovio and in OpenSheetMusicDisplay as the theory has it', () => {
    const expected = theory(options);
    expect(expected.flat().length).toBeGreaterThan(10);
    expect(verovio.map(({ keys }) => keys)).toEqual(expected);
    expect(display.map(({ keys }) => keys)).toEqual(expected);
  });

  it('has the same clefs and octave lines in both', () => {
    expect(verovio.map(({ clefs }) => clefs)).toEqual(display.map(({ clefs }) => clefs));
    expect(verovio.map(({ octaves }) => octaves)).toEqual(display.map(({ octaves }) => octaves));
    const lines = [...sheet.matchAll(/<octave-shift type="(?:up|down)"/g)];
    expect(verovio.flatMap(({ octaves }) => octaves).length).toBe(lines.length);
  });
});

it.each([
  ['whole-tone', 'thirds', [4]],
  ['whole-tone', 'sixths', [8]],
  ['octatonic-whole-half', 'thirds', [3]],
  ['octatonic-half-whole', 'sixths', [9]],
  ['major', 'thirds', [3, 4]],
  ['natural-minor', 'sixths', [8, 9]],
  ['chromatic', 'sixths', [9]],
] as const)('the %s scale in %s has intervals of so many semitones: %j', (kind, double, semitones) => {
  const settings = drillSettings({ kinds: [kind], double, octaves: 1 });
  const [section] = sectionsOf(settings, () => undefined);
  const sizes = section!.exercises.flatMap(({ steps }) =>
    [...steps.right, ...steps.left].map(({ pitches }) => keyOf(pitches[1]!) - keyOf(pitches[0]!)),
  );
  expect([...new Set(sizes)].sort()).toEqual(semitones);
});

it('there are octave lines both ways and foreign clefs among the sheets', () => {
  const all = written.join('');
  for (const type of ['up', 'down', 'stop']) expect(all).toContain(`<octave-shift type="${type}"`);
});
