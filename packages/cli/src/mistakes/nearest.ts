import { closestMatch } from 'leven';

/** Mistyped letters up to which a name is taken for another one, if at least half of it is right. */
const MOST_MISTYPED = 2;

/** The one of these that somebody means who typed nearly that. */
export function nearest(typed: string, known: readonly string[]): string | undefined {
  const small = known.map((one) => one.toLowerCase());
  const maxDistance = Math.min(MOST_MISTYPED, Math.floor(typed.length / 2));
  const meant = closestMatch(typed.toLowerCase(), small, { maxDistance });
  return meant === undefined ? undefined : known[small.indexOf(meant)];
}

/** `; did you mean sparse?`, or nothing. Of `minor`, the names in which it is a word: `natural-minor, harmonic-minor or ...`. */
export function didYouMean(typed: string, known: readonly string[]): string {
  const kinds = known.filter((name) => name.split('-').includes(typed.toLowerCase()));
  const meant = kinds.length > 0 ? orList(kinds) : nearest(typed, known);
  return meant === undefined ? '' : `; did you mean ${meant}?`;
}

/** `both, right or left`. */
export function orList(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
}
