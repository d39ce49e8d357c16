import { optionError } from '../../score/errors.js';
import { noteOf, QUARTER } from './values.js';

const UNITS: readonly number[] = [2, 4, 8, 16];
const MOST_BEATS = 24;

/** A time signature, lengths in ticks. */
export interface Metre {
  readonly beats: number;
  readonly unit: number;
  readonly measure: number;
  /** What a metronome counts: the unit, three of them in compound time. */
  readonly beat: number;
  /** Where groups of beams begin within the measure, the measure's end last. */
  readonly groups: readonly number[];
}

/**
 * @param text such as `4/4`
 * @throws HandlineError OPTION
 */
export function parseMetre(text: string): Metre {
  const match = /^(\d{1,2})\/(\d{1,2})$/.exec(text);
  const [beats, unit] = [Number(match?.[1]), Number(match?.[2])];
  if (!(beats >= 1 && beats <= MOST_BEATS) || !UNITS.includes(unit)) {
    throw optionError(
      'metre',
      `"${text}" is not allowed; give one such as 4/4, 3/4 or 6/8, up to ${MOST_BEATS} beats of ${UNITS.join(', ')}`,
    );
  }
  const ticks = (4 * QUARTER) / unit;
  const isCompound = unit >= 8 && beats % 3 === 0;
  const beat = isCompound ? 3 * ticks : ticks;
  const lengths =
    isCompound || unit < 8 ? Array.from({ length: (beats * ticks) / beat }, () => beat) : odd(beats, ticks);
  const groups = [0];
  for (const length of lengths) groups.push(groups.at(-1)! + length);
  return { beats, unit, measure: beats * ticks, beat, groups };
}

/** Twos and a three at the end, such as 2 + 2 + 3: common practice where the music does not say otherwise. */
function odd(beats: number, ticks: number): readonly number[] {
  if (beats === 1) return [ticks];
  const twos = Math.floor(beats / 2) - (beats % 2);
  return [...Array.from({ length: twos }, () => 2 * ticks), ...(beats % 2 === 1 ? [3 * ticks] : [])];
}

/** What the metronome mark shows. */
export function beatUnit({ beat }: Metre): { readonly type: string; readonly dotted: boolean } {
  const value = noteOf(beat)!;
  return { type: value.type, dotted: value.dotted };
}

/** End of the beam group that a time within the measure belongs to. */
export function groupEnd({ groups }: Metre, tick: number): number {
  return groups.find((start) => start > tick)!;
}
