import type { Hand, Line } from '#core/index.js';
import { buildLine, even, type Strike } from './passages/making/build-line.js';
import type { Span } from './passages/passage.js';

/** Our own passages for what was once fingered as no teacher would, one or two a cause; `docs/fingering.md` tells them. */
export interface Cause {
  readonly name: string;
  readonly hand: Hand;
  readonly span: Span;
  readonly line: Line;
  /** By onset, from the lowest key. */
  readonly digits: string;
}

const STEPS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** `C4`, `F#4`, `Bb4`: MIDI number. */
function keyOf(name: string): number {
  const alter = name.includes('#') ? 1 : name.includes('b') ? -1 : 0;
  return 12 * (Number(name.at(-1)) + 1) + STEPS[name[0]!]! + alter;
}

interface Form {
  readonly span?: Span;
  readonly rolled?: boolean;
  /** Onsets that the upper keys of the first one stay down. */
  readonly holds?: number;
}

/** @param rate onsets a second */
function cause(
  name: string,
  hand: Hand,
  rate: number,
  notes: string,
  digits: string,
  { span = 'medium', rolled = false, holds }: Form = {},
): Cause {
  const keys = notes.split(' ').map((onset) => onset.split('+').map(keyOf));
  const strikes = even(keys, 1).flatMap((strike, nth): Strike[] => {
    if (nth > 0 || holds === undefined) return [{ ...strike, rolled }];
    const [low, ...high] = strike.keys;
    return [
      { at: strike.at, keys: [low!], length: 1 },
      { at: strike.at, keys: high, length: holds },
    ];
  });
  return { name, hand, span, digits, line: buildLine(hand, strikes, { tempo: 60 * rate }) };
}

const times = (count: number, bar: string): string => new Array<string>(count).fill(bar).join(' ');
const scale = 'E3 F3 F#3 G3 G#3 A3 A#3 B3 C4 C#4 D4 D#4';

export const CAUSES: readonly Cause[] = [
  cause('tempo: a key repeated 9.6 times a second', 'right', 9.6, times(12, 'A4'), times(6, '2 3')),
  cause('tempo: the same at 2.5 a second', 'right', 2.5, times(8, 'A4'), times(8, '2')),
  cause('tempo: a trill', 'right', 10, `${times(6, 'A4 B4')} A4 G#4 A4`, `${times(6, '2 3')} 1 2 1`),
  cause('strain: octaves', 'left', 3, 'C3+C4 G2+G3 E3+E4 C3+C4 A2+A3 F2+F3 G2+G3 C2+C3', times(8, '51')),
  cause(
    'strain: octaves of a small hand',
    'right',
    3,
    'D5+D6 E5+E6 F5+F6 A5+A6 G5+G6 E5+E6 D5+D6',
    times(7, '15'),
    { span: 'small' },
  ),
  cause('place: under a held key', 'right', 4, 'D5+A5 F5 D5 F5 E5 G5 E5', '15 3 1 3 2 4 2', { holds: 8 }),
  cause('place: a pivot', 'left', 4, 'G2 F3 B2 F3 G2 F3 B2 F3 C3 G3 E3 G3 C3 G3 E3 G3', times(4, '5 1 3 1')),
  cause(
    'chords: sevenths',
    'left',
    2,
    'E3+C4+D4 F3+A3+C4+D4 A3+E4+F4 G3+B3+F4 C3+G3+C4',
    '521 5321 521 531 521',
  ),
  cause(
    'chords: a chain of inversions',
    'right',
    2,
    'A4+C5+F5 C5+F5+A5 F5+A5+C6 C5+F5+A5 A4+C5+F5 Bb4+D5+F5 A4+C5+F5',
    '125 135 135 135 125 135 125',
  ),
  cause(
    'crossings: a seventh arpeggio',
    'right',
    8,
    'F4 A4 C5 E5 F5 A5 C6 E6 F6 E6 C6 A5 F5 E5 C5 A4 F4',
    '1 2 3 4 1 2 3 4 5 4 3 2 1 4 3 2 1',
  ),
  cause(
    'likeness: there and back',
    'right',
    6,
    'F4 Ab4 C5 F5 Ab5 C6 F6 C6 Ab5 F5 C5 Ab4 F4',
    '1 2 3 1 2 3 5 3 2 1 3 2 1',
  ),
  cause(
    'likeness: a prelude',
    'right',
    5,
    ['D4 F4 A4 F4', 'C4 F4 A4 F4', 'Bb3 F4 G4 F4', 'C4 E4 G4 E4', 'A3 E4 G4 E4', 'D4 F4 A4 F4']
      .map((bar) => times(4, bar))
      .join(' '),
    [times(8, '1 3 5 3'), times(4, '1 4 5 4'), times(12, '1 3 5 3')].join(' '),
  ),
  cause(
    'likeness: a bar that comes back',
    'right',
    4,
    'D4 F#4 A4 F#4 D4 G4 B4 G4 C#4 E4 A4 E4 D4 F#4 A4 F#4',
    '1 3 5 3 1 3 5 3 1 2 5 2 1 3 5 3',
  ),
  cause(
    'likeness: an Alberti bass',
    'left',
    5,
    'A2 E3 C3 E3 A2 E3 C3 E3 G2 D3 B2 D3 G2 D3 B2 D3 F2 D3 A2 D3 F2 D3 A2 D3 E2 D3 G#2 D3 E2 D3 B2 D3',
    '5 1 3 1 5 1 3 1 5 1 2 1 5 1 2 1 5 1 3 1 5 1 3 1 5 1 3 1 5 1 2 1',
  ),
  cause(
    'black keys: a chromatic run',
    'left',
    9,
    `${scale} E4 ${scale.split(' ').reverse().join(' ')}`,
    '5 4 3 1 2 1 3 2 1 2 1 3 2 3 1 2 1 2 3 1 2 1 3 4 5',
  ),
  cause('rolled: tenths', 'left', 1, 'F2+A3 Bb2+F3+D4 C2+E3 F2+C3+A3', '51 521 51 531', { rolled: true }),
];
