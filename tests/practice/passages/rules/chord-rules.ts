import type { Finger } from '#core/index.js';
import { isBlack } from '../keys.js';
import type { Span } from '../passage.js';
import type { Breach, Moment, Played, Touch } from '../played.js';
import { isStrained } from './general-rules.js';

/**
 * How a chord is held (common practice). Keys are the right hand's view, from the thumb's side.
 *
 * - Fingers ascend with the keys; every key has one of its own. The thumb takes two keys only if they are neighbours at
 *   most a tone apart and the chord has more keys than the other fingers reach.
 * - An octave has 1 and 5; 4 may take a black key, and for a large hand any key. A small hand keeps to 5. Anything wider
 *   has 1 and 5, for a large hand also 1 and 4. A seventh or a sixth has no pair of long fingers stretched over it.
 * - A triad in close position has 1 and 5 outside, 3 or 2 between; 1 2 4 also passes.
 * - A seventh chord in close position has 1 and 5 outside, any two fingers that reach between; 1 2 3 4 passes where the
 *   top key is black or the chord spans less than a minor seventh.
 * - No pair is stretched beyond what it reaches without strain.
 */
export function chordBreach(struck: readonly Touch[], span: Span): string | undefined {
  if (struck.some(({ finger }) => finger === null)) return 'a key within reach has no finger';
  const keys = struck.map(({ key }) => key);
  const fingers = struck.map(({ finger }) => finger!);
  const doubled = fingers.findIndex((finger, nth) => nth > 0 && finger === fingers[nth - 1]);
  if (doubled > 0) {
    if (fingers[doubled] !== 1) return 'a long finger takes two keys';
    if (keys[doubled]! - keys[doubled - 1]! > 2) return 'the thumb takes two keys more than a tone apart';
    if (keys.length < 5) return 'the thumb takes two keys though a finger is free';
  }
  if (fingers.some((finger, nth) => nth > 0 && finger < fingers[nth - 1]!)) return 'fingers out of order';
  return outerBreach(keys, fingers, span) ?? shapeBreach(keys, fingers) ?? strainBreach(keys, fingers, span);
}

function outerBreach(keys: readonly number[], fingers: readonly Finger[], span: Span): string | undefined {
  const [low, high] = [fingers[0]!, fingers.at(-1)!];
  const width = keys.at(-1)! - keys[0]!;
  if (width < 12) return undefined;
  if (low === 1 && high === 5) return undefined;
  if (low !== 1 || high !== 4) return `an octave or more by ${low} and ${high}`;
  if (span === 'large' && width <= 14) return undefined;
  if (span === 'medium' && width === 12 && isBlack(keys.at(-1)!)) return undefined;
  return 'an octave or more by 1 and 4';
}

export function isTriad(keys: readonly number[]): boolean {
  return keys.length === 3 && gaps(keys).every((gap) => gap >= 3 && gap <= 6) && keys[2]! - keys[0]! <= 9;
}

export function isSeventh(keys: readonly number[]): boolean {
  return keys.length === 4 && gaps(keys).every((gap) => gap <= 4) && keys[3]! - keys[0]! <= 11;
}

function gaps(keys: readonly number[]): number[] {
  return keys.slice(1).map((key, nth) => key - keys[nth]!);
}

function shapeBreach(keys: readonly number[], fingers: readonly Finger[]): string | undefined {
  const digits = fingers.join(' ');
  const width = keys.at(-1)! - keys[0]!;
  if (isTriad(keys) && !['1 3 5', '1 2 5', '1 2 4'].includes(digits)) return `a triad by ${digits}`;
  if (isSeventh(keys)) {
    const four = isBlack(keys.at(-1)!) || width < 10;
    const outside = fingers[0] === 1 && (fingers.at(-1) === 5 || (four && fingers.at(-1) === 4));
    if (!outside) return `a seventh chord by ${digits}`;
  }
  return undefined;
}

function strainBreach(keys: readonly number[], fingers: readonly Finger[], span: Span): string | undefined {
  const more = span === 'large' ? 1 : 0;
  for (let nth = 1; nth < keys.length; nth++) {
    const [a, b] = [fingers[nth - 1]!, fingers[nth]!];
    if (a !== b && isStrained(a, b, keys[nth]! - keys[nth - 1]! - more, true))
      return `${a} and ${b} strained`;
  }
  return undefined;
}

/** Chord rules at every chord of two keys or more. */
export function chords({ moments, span }: Played): Breach[] {
  return moments.flatMap(({ struck, index }) => {
    const rule = struck.length > 1 ? chordBreach(struck, span) : undefined;
    return rule ? [{ rule, at: index }] : [];
  });
}

/** The same chord on the same keys is held alike throughout a passage, at any octave. */
export function chordsAlike({ moments }: Played): Breach[] {
  const found = new Map<string, string>();
  return moments.filter(isChord).flatMap(({ struck, index }) => {
    const low = struck[0]!.key;
    const place = `${low % 12}: ${struck.map(({ key }) => key - low).join(' ')}`;
    const digits = struck.map(({ finger }) => finger ?? '-').join(' ');
    const first = found.get(place);
    if (first === undefined) found.set(place, digits);
    return first === undefined || first === digits
      ? []
      : [{ rule: `one chord by ${first} and by ${digits}`, at: index }];
  });
}

function isChord({ struck }: Moment): boolean {
  return struck.length > 1;
}
