import { optionError } from '../../score/errors.js';

/** Ticks of a quarter note: every value below, and every sum of them, is a whole number. */
export const QUARTER = 48;

/** MusicXML's names, longest first. */
const TYPES = ['whole', 'half', 'quarter', 'eighth', '16th', '32nd', '64th'] as const;
export type NoteType = (typeof TYPES)[number];

/** How a length is written. */
export interface NoteValue {
  readonly ticks: number;
  readonly type: NoteType;
  readonly dotted: boolean;
  /** One of three in the time of two. */
  readonly triplet: boolean;
}

const WHOLE = 4 * QUARTER;

const plain = (type: NoteType): number => WHOLE / 2 ** TYPES.indexOf(type);

function valuesOf(type: NoteType): readonly NoteValue[] {
  const ticks = plain(type);
  const values = [{ ticks, type, dotted: false, triplet: false }];
  if (type !== '64th') values.push({ ticks: 1.5 * ticks, type, dotted: true, triplet: false });
  if (type !== 'whole' && type !== '64th')
    values.push({ ticks: (2 * ticks) / 3, type, dotted: false, triplet: true });
  return values;
}

const VALUES: readonly NoteValue[] = TYPES.flatMap(valuesOf);
const BY_TICKS: ReadonlyMap<number, NoteValue> = new Map(VALUES.map((value) => [value.ticks, value]));

/** Those that are no triplets, longest first. */
const STRAIGHT: readonly NoteValue[] = VALUES.filter(({ triplet }) => !triplet).sort(
  (a, b) => b.ticks - a.ticks,
);

/** The single note of this length; undefined where there is none. */
export function noteOf(ticks: number): NoteValue | undefined {
  return BY_TICKS.get(ticks);
}

/** What is left of a group of triplets, shortest first. */
const TRIPLETS: readonly (readonly NoteValue[])[] = [[8], [16], [32], [32, 8], [64], [4]].map((own) =>
  own.map((ticks) => BY_TICKS.get(ticks)!),
);

/** Values that fill a stretch, longest first, triplets at the end; undefined where none can. */
export function fill(ticks: number): readonly NoteValue[] | undefined {
  const straight = fillStraight(ticks);
  if (straight) return straight;
  for (const triplets of TRIPLETS) {
    const rest = fillStraight(ticks - triplets.reduce((sum, own) => sum + own.ticks, 0));
    if (rest) return [...rest, ...triplets];
  }
  return undefined;
}

function fillStraight(ticks: number): readonly NoteValue[] | undefined {
  const values: NoteValue[] = [];
  let left = ticks;
  for (const value of STRAIGHT) {
    while (value.ticks <= left) {
      values.push(value);
      left -= value.ticks;
    }
  }
  return left === 0 ? values : undefined;
}

/** Flags or beams of a note. */
export function flagsOf({ type }: NoteValue): number {
  return Math.max(0, TYPES.indexOf(type) - TYPES.indexOf('quarter'));
}

/** Names as they are typed. */
const NAMES: ReadonlyMap<string, NoteValue> = new Map(
  VALUES.map((value) => {
    const name = value.type === '16th' ? 'sixteenth' : value.type;
    return [`${value.dotted ? 'dotted-' : value.triplet ? 'triplet-' : ''}${name}`, value];
  }),
);

/** @throws HandlineError OPTION */
export function noteValue(name: string): NoteValue {
  const value = NAMES.get(name);
  if (!value) {
    throw optionError(
      'rhythms',
      `"${name}" is no note value; give quarter, eighth, sixteenth, 32nd, half or whole, also as dotted-eighth or triplet-eighth`,
      {},
      { given: name, allowed: [...NAMES.keys()] },
    );
  }
  return value;
}
