import type { Count } from '../counting/counts.js';
import type { Verdict } from '../judge.js';
import { isBlack } from '../keys.js';
import type { Moment, Played } from '../played.js';
import { chordBreach, isSeventh, isTriad } from './chord-rules.js';
import { crossings, FAST_REPETITION, FAST_SLIDE, isConnected, slides, steps } from './general-rules.js';
import { measuresOf, unlikeBars } from './position-rules.js';

/** A rule that is counted over passages: how often it applies, and how often our digits break it. */
export interface PracticeRule {
  readonly name: string;
  /** Textures that it is counted in; default: all. */
  readonly textures?: readonly string[];
  readonly count: (verdict: Verdict) => Count;
}

const NONE: Count = { occasions: 0, breaches: 0 };

function count<T>(all: readonly T[], isBreach: (one: T) => boolean): Count {
  return { occasions: all.length, breaches: all.filter(isBreach).length };
}

function outer({ struck }: Moment): string {
  return `${struck[0]!.finger}${struck.at(-1)!.finger}`;
}

function width({ struck }: Moment): number {
  return struck.at(-1)!.key - struck[0]!.key;
}

function isWhiteOctave(moment: Moment): boolean {
  return width(moment) === 12 && !isBlack(moment.struck[0]!.key);
}

/** A finger on two keys that is not the thumb on two neighbours of a chord of more than four. */
function isThumbOnTwo({ struck }: Moment): boolean {
  return struck.some(({ key, finger }, nth) => {
    const below = struck[nth - 1];
    if (finger === null || below?.finger !== finger) return false;
    return finger !== 1 || key - below.key > 2 || struck.length < 5;
  });
}

/** Chords struck while no other key is down. */
function chordsOf({ moments }: Played): readonly Moment[] {
  return moments.filter(({ struck, held }) => struck.length > 1 && held.length === 0);
}

function isFingered({ struck }: Moment): boolean {
  return struck.every(({ finger }) => finger !== null);
}

/** All of them common practice. */
export const PRACTICE_RULES: readonly PracticeRule[] = [
  {
    name: 'R1 no finger twice in a row on a key repeated faster than 7 a second',
    count: ({ played }) =>
      count(
        steps(played).filter(
          ({ seconds, from, to, held }) =>
            seconds > 0 && seconds < FAST_REPETITION - 1e-6 && from.key === to.key && held < 4,
        ),
        ({ from, to }) => from.finger === to.finger,
      ),
  },
  {
    name: 'R2 an octave or a ninth as a chord has 1 and 5 or 4 outside',
    count: ({ played }) =>
      count(
        chordsOf(played).filter((chord) => isFingered(chord) && width(chord) >= 12 && width(chord) <= 14),
        (chord) => !['15', '14'].includes(outer(chord)),
      ),
  },
  {
    name: 'R2 a white octave of a small or medium hand has 1 and 5',
    count: ({ played }) =>
      played.span === 'large'
        ? NONE
        : count(
            chordsOf(played).filter((chord) => isFingered(chord) && isWhiteOctave(chord)),
            (chord) => outer(chord) !== '15',
          ),
  },
  {
    name: 'R3 the thumb on two keys only for neighbours at most a tone apart that no free finger reaches',
    count: ({ played }) => count(chordsOf(played), isThumbOnTwo),
  },
  {
    name: 'R4 no crossing by or over 5, no long finger over another in a connected line',
    count: ({ played }) => ({
      occasions: steps(played).filter(isConnected).length,
      breaches: crossings(played).length,
    }),
  },
  {
    name: 'R5 a long trill uses 1 2, 1 3 or 2 3, with reason 2 4 or 3 5',
    textures: ['trills'],
    count: ({ passage, breaches }) =>
      passage.what.startsWith('long')
        ? count([breaches], (own) => own.some(({ rule }) => rule.includes('weak')))
        : NONE,
  },
  {
    name: 'R6 digits of equal bars are equal',
    textures: ['recurring bars', 'Alberti basses'],
    count: ({ played }) => {
      const { digits, unlike } = unlikeBars(played, measuresOf(played));
      return { occasions: digits, breaches: unlike };
    },
  },
  {
    name: 'R6 the octaves of a run are equal',
    textures: ['scales', 'arpeggios', 'chromatic runs'],
    count: ({ breaches }) =>
      count([breaches], (own) => own.some(({ rule }) => rule.startsWith('one octave has'))),
  },
  {
    name: 'R7 no slide from white to white faster than 4 notes a second',
    count: ({ played }) => ({
      occasions: steps(played).filter(({ seconds, from, to }) => seconds < FAST_SLIDE && from.key !== to.key)
        .length,
      breaches: slides(played).length,
    }),
  },
  {
    name: 'R8 triads, sevenths and their inversions have 1 and 5 outside and no thumb on two keys',
    textures: ['triads', 'seventh chords', 'cadences'],
    count: ({ played }) =>
      count(
        chordsOf(played).filter(({ struck }) => {
          const keys = struck.map(({ key }) => key);
          return isTriad(keys) || isSeventh(keys);
        }),
        (chord) => outer(chord) !== '15' || isThumbOnTwo(chord),
      ),
  },
  {
    name: 'R8 they are held as chords are',
    textures: ['triads', 'seventh chords', 'cadences'],
    count: ({ played }) =>
      count(chordsOf(played), ({ struck }) => chordBreach(struck, played.span) !== undefined),
  },
  {
    name: 'R9 five-finger patterns on white keys are 1 2 3 4 5',
    textures: ['five-finger patterns'],
    count: ({ played, breaches }) =>
      played.moments.every(({ struck: [own] }) => !isBlack(own!.key))
        ? count([breaches], (own) => own.length > 0)
        : NONE,
  },
];
