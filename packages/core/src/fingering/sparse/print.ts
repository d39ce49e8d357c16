import type { Line, Slice } from '../../hands/line.js';
import type { Finger, Hand } from '../../score/model.js';
import type { LineFingering } from '../result.js';
import { type PrintedSlice, Reader } from './reader.js';

/** What is in print whether the rule needs it or not. */
export interface SparseOptions {
  /** True for slices that get their digits for other reasons: a crossing, the first slice of a selection. */
  readonly always?: (slice: number) => boolean;
  /** True for struck keys whose digit is printed in any case, such as one of the file's own. */
  readonly printed?: (slice: number, struck: number) => boolean;
  /** Finger that takes a struck key over while it is held, printed after its digit. */
  readonly substitution?: (slice: number, struck: number) => Finger | undefined;
}

/**
 * The digits that a reader needs: those without which the plain five-finger rule (`Reader`) would read another finger
 * (a new position, a shift, a stretch, an unexpected finger), as few as possible in each chord; and the first digit of
 * every phrase. `reconstruct` of the result is the fingering itself; keys without a finger stay without a digit.
 */
export function sparseDigits(
  line: Line,
  fingering: Pick<LineFingering, 'slices'>,
  options: SparseOptions = {},
): readonly PrintedSlice[] {
  const reader = new Reader(line);
  return line.slices.map((slice, at) => {
    const fingers = fingering.slices[at]!.struck;
    const due = fingers.map((finger, nth) => {
      const substituted = options.substitution?.(at, nth) !== undefined;
      return finger !== null && (substituted || (options.printed?.(at, nth) ?? false));
    });
    const all = at === 0 || slice.phraseStart || (options.always?.(at) ?? false);
    const struck =
      all && slice.struck.length === 1 ? fingers : fewest(line, reader, slice, fingers, due, all);
    const printed: PrintedSlice = {
      struck,
      substitutions: fingers.map((_, nth) => options.substitution?.(at, nth) ?? null),
    };
    reader.follow(slice, reader.read(slice, struck), printed);
    return printed;
  });
}

/** Keys of one chord among which a choice is made: a hand plays six at most, the thumb two of them. */
const MOST_FREE = 6;

/** The smallest set of digits from which the reader reads the whole slice; of equal ones the one with outer keys, then with the thumb's side. */
function fewest(
  line: Line,
  reader: Reader,
  slice: Slice,
  fingers: readonly (Finger | null)[],
  due: readonly boolean[],
  some: boolean,
): readonly (Finger | null)[] {
  const free = fingers.flatMap((finger, nth) => (finger !== null && !due[nth] ? [nth] : []));
  if (free.length > MOST_FREE) return fingers;
  const sets = Array.from({ length: 2 ** free.length }, (_, bits) =>
    fingers.map((finger, nth) => {
      const place = free.indexOf(nth);
      return place < 0 ? (due[nth] ? finger : null) : (bits >> place) & 1 ? finger : null;
    }),
  ).sort(
    (a, b) =>
      members(a) - members(b) || outer(b) - outer(a) || thumbSide(b, line.hand) - thumbSide(a, line.hand),
  );
  for (const printed of sets) {
    if (some && members(printed) === 0) continue;
    const read = reader.read(slice, printed);
    if (fingers.every((finger, nth) => finger === null || read[nth] === finger)) return printed;
  }
  return fingers;
}

function members(printed: readonly (Finger | null)[]): number {
  return printed.filter((finger) => finger !== null).length;
}

function outer(printed: readonly (Finger | null)[]): number {
  return Number(printed[0] !== null) + Number(printed.at(-1) !== null);
}

/** Grows with digits nearer to the thumb's side of a chord: the lower keys of the right hand, the upper of the left. */
function thumbSide(printed: readonly (Finger | null)[], hand: Hand): number {
  const ordered = hand === 'right' ? printed : printed.toReversed();
  return ordered.reduce((sum, finger) => sum * 2 + Number(finger !== null), 0);
}
