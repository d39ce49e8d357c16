import { isBlack } from '../keys.js';
import type { Breach, Moment, Played, Touch } from '../played.js';

/**
 * The hand in one place (common practice): while it stays, every key it covers belongs to the finger above it. A key that
 * returns has the same finger, and fingers ascend with the keys, held keys included; 2 on a black key may stand over the
 * thumb on the white key beside it.
 *
 * @param from first moment of the stretch; `to` is behind its last
 */
export function position(played: Played, from: number, to: number): Breach[] {
  const fingers = new Map<number, { finger: number; at: number }>();
  const breaches: Breach[] = [];
  for (let at = from; at < to; at++) {
    const { struck, held } = played.moments[at]!;
    for (const touch of [...struck, ...held]) {
      const breach = placeBreach(touch, fingers);
      if (breach) breaches.push({ rule: breach, at });
      else fingers.set(touch.key, { finger: touch.finger!, at });
    }
  }
  return breaches;
}

function placeBreach(
  { key, finger }: Touch,
  fingers: ReadonlyMap<number, { finger: number }>,
): string | undefined {
  if (finger === null) return undefined;
  for (const [other, { finger: theirs }] of fingers) {
    if (other === key && theirs !== finger) return `a key in place has ${theirs} and ${finger}`;
    if (other !== key && theirs === finger) return `${finger} takes two keys of one hand position`;
    if (other < key !== theirs < finger && other !== key && !standsOver(other, theirs, key, finger))
      return `${finger} and ${theirs} out of their order`;
  }
  return undefined;
}

function standsOver(one: number, oneFinger: number, other: number, otherFinger: number): boolean {
  if (oneFinger > otherFinger) return standsOver(other, otherFinger, one, oneFinger);
  return (
    oneFinger === 1 && otherFinger === 2 && isBlack(other) && !isBlack(one) && Math.abs(one - other) === 1
  );
}

/** Bars that are not fingered as most of their like. */
export interface Unlike {
  /** Digits in bars that have a like. */
  readonly digits: number;
  /** Those that are not the digits of the bar that occurs most often among its like. */
  readonly unlike: number;
  readonly breaches: readonly Breach[];
}

/** @param bars first moments of the bars; the last bar ends with the passage */
export function unlikeBars({ moments }: Played, bars: readonly number[]): Unlike {
  const groups = new Map<string, { digits: string[]; starts: number[] }>();
  bars.forEach((start, nth) => {
    const own = moments.slice(start, bars[nth + 1] ?? moments.length);
    const keys = own.map(barKeys).join(' ');
    const group = groups.get(keys) ?? { digits: [], starts: [] };
    group.digits.push(own.map(barDigits).join(' '));
    group.starts.push(start);
    groups.set(keys, group);
  });
  let [total, unlike] = [0, 0];
  const breaches: Breach[] = [];
  for (const { digits, starts } of groups.values()) {
    if (digits.length < 2) continue;
    const usual = mostFrequent(digits);
    digits.forEach((own, nth) => {
      const [mine, theirs] = [own.split(' '), usual.split(' ')];
      const different = mine.filter((digit, at) => digit !== theirs[at]).length;
      total += mine.length;
      unlike += different;
      if (different > 0) breaches.push({ rule: `a bar by ${own}, its like by ${usual}`, at: starts[nth]! });
    });
  }
  return { digits: total, unlike, breaches };
}

/** Equal bars have equal digits (common practice): at least 98 % of them are those of most bars of the same keys. */
export function barsAlike(played: Played, bars: readonly number[]): readonly Breach[] {
  const { digits, unlike, breaches } = unlikeBars(played, bars);
  return unlike > 0.02 * digits ? breaches : [];
}

function barKeys({ struck }: Moment): string {
  return struck.map(({ key }) => key).join('+');
}

function barDigits({ struck }: Moment): string {
  return struck.map(({ finger }) => finger ?? '-').join('+');
}

export function mostFrequent<T>(values: readonly T[]): T {
  const counts = new Map<T, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].reduce((most, own) => (own[1] > most[1] ? own : most))[0];
}

/** First moments of the measures. */
export function measuresOf({ moments }: Played): number[] {
  return moments.filter(({ measure }, at) => measure !== moments[at - 1]?.measure).map(({ index }) => index);
}
