import { inputOf, MARKING } from '../options/allowed.js';
import { type Check, count, fields, flag, listOf, oneOf, refuse, text } from '../options/check.js';
import { checkDegrees } from './motive/degrees.js';
import { type DrillOptions, PATTERNS } from './options.js';
import { DISTANCES, DOUBLES } from './patterns/scales.js';
import { CHORD_KINDS } from './theory/chords.js';
import { SCALE_KINDS } from './theory/scales.js';

/** Notes of a fragment: fewer say nothing of a fingering, more are a scale. */
const FRAGMENT_LENGTHS = [3, 16] as const;
const MOST_FRAGMENTS = 500;
const LONGEST_TITLE = 120;
const MOST_OCTAVES = 4;
const MOST_STEPS = 36;
/** Beats a minute. */
export const TEMPOS = [20, 300] as const;

const { hands, span, digits, by, alternatives, layers, density, language, wording, legend } = MARKING;

const length = count(...FRAGMENT_LENGTHS);

function filled(check: Check): Check {
  return (value, name) => {
    listOf(check)(value, name);
    if ((value as readonly unknown[]).length === 0) refuse(value, name, 'at least one');
  };
}

const title: Check = (value, name) => {
  text(value, name);
  const own = (value as string).trim();
  if (own === '' || own.length > LONGEST_TITLE || /\p{Cc}/u.test(own)) {
    refuse(value, name, `one line of 1 to ${LONGEST_TITLE} characters`);
  }
};

const keys: Check = (value, name) => {
  if (value !== 'all') filled(text)(value, name);
};

const source = fields(
  {
    score: (value) => void inputOf(value),
    file: text,
    measures: fields({ from: text, to: text }, ['from', 'to']),
  },
  ['score'],
);

const ofEither: Check = (value, name) => {
  const isSource = typeof value === 'object' && value !== null && 'score' in value;
  (isSource ? source : checkDegrees)(value, name);
};

const check = fields({
  ...{ hands, span, digits, by, alternatives, layers, density, language, wording, legend },
  title,
  keys,
  patterns: filled(oneOf(PATTERNS)),
  kinds: filled(oneOf(SCALE_KINDS)),
  chords: filled(oneOf(CHORD_KINDS)),
  inversions: flag,
  octaves: count(1, MOST_OCTAVES),
  start: count(0, 8),
  motion: oneOf(['together', 'contrary', 'separate']),
  apart: oneOf(DISTANCES),
  double: oneOf(DOUBLES),
  fragments: fields({ from: length, to: length, starts: filled(count(0, 11)), turns: filled(count(2, 16)) }, [
    'from',
    'to',
  ]),
  awkward: count(1, MOST_FRAGMENTS),
  motive: ofEither,
  sequence: oneOf(['diatonic', 'chromatic']),
  steps: count(1, MOST_STEPS),
  study: source,
  metre: text,
  rhythms: filled(filled(text)),
  accents: count(2, 16),
  tempo: count(...TEMPOS),
});

/** @throws HandlineError OPTION that names the option and what it may be */
export function checkDrill(options: DrillOptions): void {
  check(options, '');
  const { fragments } = options;
  if (fragments && fragments.from > fragments.to) {
    refuse(`${fragments.from}-${fragments.to}`, 'fragments', 'the shorter length first');
  }
}
