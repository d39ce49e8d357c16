import type { Hand } from '#core/score/model.js';
import { SCALES } from '../practice/handbook.js';

/**
 * Standard fingerings: C.-L. Hanon, The Virtuoso Pianist (1873), Nos. 39 and 41, from memory. For checks only. Every
 * row is the group of one octave upwards from the tonic, as it recurs when the passage goes on; how the ends differ is
 * common practice, see `ends`.
 */
export type Kind = 'major scale' | 'harmonic minor scale' | 'major arpeggio' | 'minor arpeggio';

/** Semitones above the tonic within one octave. */
export const STEPS: Readonly<Record<Kind, readonly number[]>> = {
  'major scale': [0, 2, 4, 5, 7, 9, 11],
  'harmonic minor scale': [0, 2, 3, 5, 7, 8, 11],
  'major arpeggio': [0, 4, 7],
  'minor arpeggio': [0, 3, 7],
};

/** Semitones of the tonics above C. */
const TONICS: Readonly<Record<string, number>> = {
  C: 0,
  'C sharp': 1,
  'D flat': 1,
  D: 2,
  'E flat': 3,
  E: 4,
  F: 5,
  'F sharp': 6,
  'G flat': 6,
  G: 7,
  'G sharp': 8,
  'A flat': 8,
  A: 9,
  'B flat': 10,
  B: 11,
};

/** tonic: right hand, left hand */
type Rows = Readonly<Record<string, readonly [right: string, left: string]>>;

const MAJOR_SCALES: Rows = Object.fromEntries(
  Object.keys(SCALES.right).map((tonic) => [
    tonic,
    [SCALES.right[tonic]!.slice(0, 7), SCALES.left[tonic]!.slice(0, 7)] as const,
  ]),
);

const MINOR_SCALES: Rows = {
  A: ['1231234', '1432132'],
  E: ['1231234', '1432132'],
  B: ['1231234', '1321432'],
  'F sharp': ['3412312', '4321321'],
  'C sharp': ['3412312', '3214321'],
  'G sharp': ['3412312', '3214321'],
  'E flat': ['3123412', '2143213'],
  'B flat': ['4123123', '2132143'],
  F: ['1234123', '1432132'],
  C: ['1231234', '1432132'],
  G: ['1231234', '1432132'],
  D: ['1231234', '1432132'],
};

const MAJOR_ARPEGGIOS: Rows = {
  C: ['123', '142'],
  G: ['123', '142'],
  D: ['123', '132'],
  A: ['123', '132'],
  E: ['123', '132'],
  B: ['123', '132'],
  'G flat': ['123', '132'],
  'D flat': ['412', '214'],
  'A flat': ['412', '214'],
  'E flat': ['412', '214'],
  'B flat': ['412', '321'],
  F: ['123', '142'],
};

const MINOR_ARPEGGIOS: Rows = {
  A: ['123', '142'],
  E: ['123', '142'],
  B: ['123', '142'],
  'F sharp': ['412', '214'],
  'C sharp': ['412', '214'],
  'G sharp': ['412', '214'],
  'E flat': ['123', '142'],
  'B flat': ['231', '321'],
  F: ['123', '142'],
  C: ['123', '142'],
  G: ['123', '142'],
  D: ['123', '142'],
};

export const TABLES: Readonly<Record<Kind, Rows>> = {
  'major scale': MAJOR_SCALES,
  'harmonic minor scale': MINOR_SCALES,
  'major arpeggio': MAJOR_ARPEGGIOS,
  'minor arpeggio': MINOR_ARPEGGIOS,
};

export interface Passage {
  readonly name: string;
  readonly kind: Kind;
  readonly tonic: string;
  readonly hand: Hand;
  readonly keys: readonly number[];
  /** Places on the staff, the tonic 0: a scale has one note on each, its augmented second lies between neighbours. */
  readonly diatonic: readonly number[];
  /** The handbook's digits for every key, one or more forms that differ at the ends alone. */
  readonly forms: readonly string[];
}

export const OCTAVES = 2;
/** C of the lowest octave used: both hands keep clear of the keyboard's ends. */
const BASE: Readonly<Record<Hand, number>> = { right: 60, left: 36 };

/** Some octaves up and down. */
export function passage(kind: Kind, tonic: string, hand: Hand, octaves: number = OCTAVES): Passage {
  const group = TABLES[kind][tonic]![hand === 'right' ? 0 : 1];
  const low = BASE[hand] + TONICS[tonic]!;
  const degrees = kind.endsWith('scale')
    ? STEPS[kind].map((_, at) => at)
    : STEPS[kind].map((_, at) => 2 * at);
  const keys = upAndDown(STEPS[kind], 12, octaves).map((step) => low + step);
  const diatonic = upAndDown(degrees, 7, octaves);
  const digits = group.repeat(octaves) + group[0]!;
  const away = hand === 'right' ? [...digits] : [...digits].reverse();
  const outer = hand === 'right' ? digits.length - 1 : 0;
  const forms = innerEnds(away).map((ended) => {
    const own = hand === 'right' ? ended : [...ended].reverse();
    own[outer] = outerEnd(digits, outer, kind);
    return [...own, ...own.slice(0, -1).reverse()].join('');
  });
  return { name: `${tonic} ${kind}, ${hand} hand`, kind, tonic, hand, keys, diatonic, forms };
}

/** The places of one octave, an octave being so many, through all octaves up and down. */
function upAndDown(places: readonly number[], octave: number, octaves: number): number[] {
  const up: number[] = [];
  for (let nth = 0; nth < octaves; nth++) up.push(...places.map((place) => octave * nth + place));
  return [...up, octave * octaves, ...[...up].reverse()];
}

/**
 * On the thumb's side nothing lies beyond the end: what comes before the first thumb may as well be played by the fingers
 * next to it, 2 for 3 or 4, 2 3 for 3 4.
 *
 * @param digits from the thumb's end on
 */
function innerEnds(digits: readonly string[]): readonly string[][] {
  const before = digits.indexOf('1');
  const near = digits.map((digit, at) => (at < before ? String(at + 2) : digit));
  return before > 0 && near[0] !== digits[0] ? [near, [...digits]] : [[...digits]];
}

/** On the little finger's side no thumb passes at the end: the finger after the last one, in arpeggios the fifth. */
function outerEnd(digits: string, at: number, kind: Kind): string {
  if (digits[at] !== '1') return digits[at]!;
  if (kind.endsWith('arpeggio')) return '5';
  const neighbour = at === 0 ? digits[1]! : digits[at - 1]!;
  return String(Number(neighbour) + 1);
}

export function passages(kinds: readonly Kind[], hand: Hand): readonly Passage[] {
  return kinds.flatMap((kind) => Object.keys(TABLES[kind]).map((tonic) => passage(kind, tonic, hand)));
}
