import type { Finger, Line, LineFingering } from '#core/index.js';
import { keyName, mirrorKey } from './keys.js';
import type { Span } from './passage.js';

export interface Touch {
  /** Key as the right hand sees it: a left hand's key mirrored about D4, which keeps its colour. */
  readonly key: number;
  /** Null where the fingering leaves the key out. */
  readonly finger: Finger | null;
}

/** One onset as the right hand sees it: every rule is written once and holds for both hands. */
export interface Moment {
  readonly index: number;
  /** Struck keys, ascending in the right hand's view. */
  readonly struck: readonly Touch[];
  readonly held: readonly Touch[];
  readonly measure: number;
  readonly grace: boolean;
  readonly rolled: boolean;
  /** Seconds since the onset before. */
  readonly seconds: number;
  /** Seconds of these without a key. */
  readonly free: number;
}

export interface Played {
  readonly line: Line;
  readonly span: Span;
  readonly moments: readonly Moment[];
}

export interface Breach {
  /** The rule in words. */
  readonly rule: string;
  /** Index of the moment where it is broken. */
  readonly at: number;
}

export function playedOf(line: Line, { slices }: Pick<LineFingering, 'slices'>, span: Span): Played {
  const own = (key: number) => (line.hand === 'left' ? mirrorKey(key) : key);
  const moments = line.slices.map((slice, index): Moment => {
    const touches = (keys: readonly { key: number }[], fingers: readonly (Finger | null)[]) =>
      keys
        .map(({ key }, nth): Touch => ({ key: own(key), finger: fingers[nth] ?? null }))
        .sort((a, b) => a.key - b.key);
    const { measure, grace, rolled, seconds, free } = slice;
    const { struck, held } = slices[index]!;
    return {
      index,
      struck: touches(slice.struck, struck),
      held: touches(slice.held, held),
      measure,
      grace,
      rolled,
      seconds,
      free,
    };
  });
  return { line, span, moments };
}

/** Keys and digits of a stretch for people, chords from the lowest key, held keys in parentheses. */
export function show({ line, moments }: Played, from = 0, to = moments.length): string {
  const name = ({ key, finger }: Touch) =>
    `${keyName(line.hand === 'left' ? mirrorKey(key) : key)}:${finger ?? '-'}`;
  return moments
    .slice(from, to)
    .map(({ struck, held }) => {
      const keys = (line.hand === 'left' ? struck.toReversed() : struck).map(name).join('+');
      return held.length > 0 ? `${keys}(${held.map(name).join('+')})` : keys;
    })
    .join(' ');
}
