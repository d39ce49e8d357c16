import type { HandModel } from '../anatomy/hand.js';
import { type Fingered, type FingerOptions, fingerLine } from '../fingering/finger.js';
import type { Line, Slice } from '../hands/line.js';

interface Stretch {
  readonly line: Line;
  /** Index of its first slice in the whole line. */
  readonly from: number;
}

/**
 * As `fingerLine`, but stretches that have nothing to do with each other, such as the keys of a technique sheet, are
 * fingered each for itself: like figures are fingered alike within a stretch only.
 *
 * @param starts measures with which stretches begin, by index; absent: the line is one stretch
 */
export function fingerStretches(
  line: Line,
  hand: HandModel,
  options: FingerOptions,
  starts: readonly number[] | undefined,
): Fingered {
  if (!starts) return fingerLine(line, hand, options);
  const stretches = stretchesOf(line, new Set(starts));
  const fingered = stretches.map((stretch) => fingerLine(stretch.line, hand, options));
  const isAsked = fingered.some(({ alternates }) => alternates);
  return {
    fingering: {
      line,
      slices: fingered.flatMap(({ fingering }) => fingering.slices),
      cost: fingered.reduce((sum, { fingering }) => sum + fingering.cost, 0),
    },
    doubts: fingered.flatMap(({ doubts }, nth) =>
      doubts.map(({ slice, kind }) => ({ slice: slice + stretches[nth]!.from, kind })),
    ),
    ...(isAsked && { alternates: fingered.flatMap(({ alternates = [] }) => alternates) }),
  };
}

/** A stretch begins with the first slice of its measures, unless a key is still held there. */
function stretchesOf({ slices, ...line }: Line, starts: ReadonlySet<number>): readonly Stretch[] {
  const bounds = slices.flatMap((slice, at) =>
    at === 0 || begins(slice, slices[at - 1]!, starts) ? [at] : [],
  );
  return bounds.map((from, nth) => ({
    from,
    line: { ...line, slices: slices.slice(from, bounds[nth + 1]).map((slice) => rebased(slice, from)) },
  }));
}

function begins({ measure, held }: Slice, before: Slice, starts: ReadonlySet<number>): boolean {
  if (held.length > 0) return false;
  for (let at = before.measure + 1; at <= measure; at++) if (starts.has(at)) return true;
  return false;
}

/** A slice as its stretch counts it. */
function rebased(slice: Slice, from: number): Slice {
  const index = slice.index - from;
  const held = slice.held.map((key) => (key.since === undefined ? key : { ...key, since: key.since - from }));
  if (index > 0) return { ...slice, index, held };
  return { ...slice, index, held, released: [], seconds: 0, free: 0 };
}
