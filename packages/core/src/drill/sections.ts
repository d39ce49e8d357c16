import { optionError } from '../score/errors.js';
import { awkwardSections, fragmentSection } from './fragment-sections.js';
import { sequenceSections, studySections } from './motive/sections.js';
import type { DrillPattern } from './options.js';
import { brokenChord, cadences } from './patterns/chords.js';
import { fragmentsOf } from './patterns/fragments.js';
import { thereAndBack } from './patterns/ladder-lines.js';
import { exercisesOf, ladderExercises } from './patterns/scales.js';
import type { DrillSettings } from './settings.js';
import type { Exercise, Section } from './sheet.js';
import type { Subject } from './subject.js';
import { allTonics, chordLadder, type Ladder, scaleLadder } from './theory/keys.js';
import type { Tonic } from './theory/tonic.js';
import { filled, keyTitle } from './words/languages.js';

/** The order of fifths from C, as pitch classes. */
const FIFTHS = Array.from({ length: 12 }, (_, nth) => (7 * nth) % 12);
const SEVEN = 7;
/** Fragments that a sheet prints, some 400 pages of them; and that `awkward` compares, which takes half a minute. */
const MOST_FRAGMENTS = 2000;
const MOST_COMPARED = 20_000;

/**
 * What a sheet holds, key by key.
 *
 * @param progress is told how much is done, 0 ... 1
 */
export function sectionsOf(settings: DrillSettings, progress: (done: number) => void): readonly Section[] {
  const keys = keysOf(settings);
  const { patterns, awkward, own } = settings;
  if (own?.use === 'sequence') return sequenceSections(own.placed, own.kind, own, settings);
  if (own?.use === 'study') return studySections(own.figure, settings);
  if (patterns.includes('fragments')) refuseTooMany(settings, keys);
  if (awkward !== undefined) {
    const subjects = keys.flatMap((at) => scalesIn(settings, at));
    return awkwardSections(subjects, settings, awkward, progress);
  }
  return keys.flatMap((at, nth) => {
    progress(nth / keys.length);
    return patterns.flatMap((pattern) => patternIn(pattern, at, settings));
  });
}

function refuseTooMany(settings: DrillSettings, keys: readonly KeyAt[]): void {
  const subjects = keys.flatMap((at) => scalesIn(settings, at));
  const count = subjects.reduce(
    (sum, { ladder }) => sum + fragmentsOf(ladder.size, settings.fragments).length,
    0,
  );
  const most = settings.awkward === undefined ? MOST_FRAGMENTS : MOST_COMPARED;
  if (count <= most) return;
  throw optionError(
    'fragments',
    `these would be ${count}, and a sheet takes ${most} at most; choose fewer keys, lengths, degrees or turns`,
  );
}

/** A keynote that was asked for, or the pitch class of one of the twelve. */
type KeyAt = Tonic | number;

function keysOf({ tonics }: DrillSettings): readonly KeyAt[] {
  return tonics === 'all' ? FIFTHS : tonics;
}

function tonicOf(at: KeyAt, kind: Subject['kind']): Tonic {
  return typeof at === 'number' ? allTonics(kind)[at]! : at;
}

function scalesIn({ kinds }: DrillSettings, at: KeyAt): readonly Subject[] {
  return kinds.map((kind) => ({ kind, ladder: scaleLadder(tonicOf(at, kind), kind) }));
}

function chordsIn({ chords }: DrillSettings, at: KeyAt): readonly Subject[] {
  return chords.map((chord) => ({ kind: { chord }, ladder: chordLadder(tonicOf(at, { chord }), chord) }));
}

function patternIn(pattern: DrillPattern, at: KeyAt, settings: DrillSettings): readonly Section[] {
  const { line, inversions, metre, words } = settings;
  const section = ({ ladder, kind }: Subject, exercises: readonly Exercise[]): Section => {
    const key = keyTitle(ladder.tonic, kind, settings.language);
    const heading = pattern === 'scales' ? key : filled(words.patterns[pattern], { key });
    return { heading, fifths: ladder.fifths, ...(ladder.mode && { mode: ladder.mode }), exercises };
  };
  const chords = () => chordsIn(settings, at);
  const scales = () => scalesIn(settings, at);
  switch (pattern) {
    case 'scales':
      return scales().map((own) => section(own, ladderExercises(own.ladder, line)));
    case 'arpeggios':
      return chords().map((own) => {
        const starts = inversions ? Array.from({ length: own.ladder.size }, (_, from) => from) : [0];
        return section(
          own,
          starts.flatMap((from) => ladderExercises(own.ladder, { ...line, apart: 'octave' }, from)),
        );
      });
    case 'broken-chords':
      return chords().map((own) => section(own, brokenChord(own.ladder, { ...line, apart: 'octave' })));
    case 'cadences':
      return scales().map((own) =>
        section(own, cadences(sevenNotes(own, 'cadences'), line, inversions, metre.beat)),
      );
    case 'five-finger':
      return scales().map((own) =>
        section(own, exercisesOf(sevenNotes(own, 'five-finger'), line, thereAndBack(0, 4))),
      );
    case 'fragments':
      return scales().map((own) => fragmentSection(own, settings));
  }
}

function sevenNotes({ ladder, kind }: Subject, pattern: string): Ladder {
  if (ladder.size === SEVEN) return ladder;
  throw optionError('patterns', `a ${String(kind)} scale has no "${pattern}"; take a scale of seven notes`);
}
