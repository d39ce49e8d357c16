import type { Bar, Written } from '../rhythm/bars.js';
import { groupEnd, type Metre } from '../rhythm/metre.js';
import { flagsOf, QUARTER } from '../rhythm/values.js';

export type Beam = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

/** Beams of every note of a measure, the first beam first; none where a note stands alone. */
export function beamsOf(bar: Bar, metre: Metre): readonly (readonly Beam[])[] {
  const beams: Beam[][] = bar.map(() => []);
  for (const group of groupsOf(bar, metre)) {
    if (group.length < 2) continue;
    const most = Math.max(...group.map((at) => flagsOf(bar[at]!.value)));
    for (let level = 1; level <= most; level++) {
      group.forEach((at, nth) => {
        const has = (other: number | undefined) => other !== undefined && flagsOf(bar[other]!.value) >= level;
        if (has(at)) beams[at]!.push(beamOf(has(group[nth - 1]), has(group[nth + 1]), nth));
      });
    }
  }
  return beams;
}

function beamOf(before: boolean, after: boolean, nth: number): Beam {
  if (before && after) return 'continue';
  if (after) return 'begin';
  if (before) return 'end';
  return nth === 0 ? 'forward hook' : 'backward hook';
}

/** Neighbouring notes with flags, by the groups of the metre. */
function groupsOf(bar: Bar, metre: Metre): readonly (readonly number[])[] {
  const groups: number[][] = [];
  let end = Number.NEGATIVE_INFINITY;
  let open: number[] | undefined;
  bar.forEach((written, at) => {
    if (written.at >= end) {
      open = undefined;
      end = windowEnd(bar, written, metre);
    }
    if (!written.step || flagsOf(written.value) === 0) {
      open = undefined;
      return;
    }
    if (!open) {
      open = [];
      groups.push(open);
    }
    open.push(at);
  });
  return groups;
}

/** Half a measure of common time where it holds eighths alone (common practice), else the beat. */
function windowEnd(bar: Bar, { at }: Written, metre: Metre): number {
  const end = groupEnd(metre, at);
  const half = 2 * QUARTER;
  if (metre.unit !== 4 || metre.beats % 2 !== 0 || at % half !== 0) return end;
  const own = bar.filter((written) => written.at >= at && written.at < at + half);
  const areEighths = own.every(({ value, step }) => step && value.ticks === QUARTER / 2);
  return areEighths ? at + half : end;
}
