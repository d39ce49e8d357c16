import type { Finger } from '#core/score/model.js';
import { black, centre, practical } from './reach.js';

/*
 * What a hand can hold, stated once more from its description to judge the library's own: of all ways to put fingers on
 * keys, those that pass.
 */

export interface Key {
  readonly key: number;
  readonly struck: boolean;
  readonly pedalled: boolean;
  readonly fixed: Finger | undefined;
}

export interface Held {
  /** Indices of the keys that are played. */
  readonly kept: readonly number[];
  /** Fingers from the lowest key up, as words such as `135`, sorted. */
  readonly candidates: readonly string[];
  readonly trouble: 'none' | 'reach' | 'digits';
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
/** mm by which fingers may stretch beyond their reach, and come nearer to each other than the published minima. */
const [STRETCH, FOLD] = [5, 5 + 8];
/** In a roll neighbours may lie so much further apart. */
const ROLL = 1.4;

function all(keys: readonly Key[]): readonly (readonly Finger[])[] {
  return keys.reduce<readonly (readonly Finger[])[]>(
    (ways, { fixed }) => ways.flatMap((way) => (fixed ? [fixed] : FINGERS).map((finger) => [...way, finger])),
    [[]],
  );
}

function holds(keys: readonly Key[], fingers: readonly Finger[], span: number, rolled: boolean): boolean {
  return fingers.every((high, at) =>
    fingers.slice(0, at).every((low, below) => {
      const [from, to] = [keys[below]!.key, keys[at]!.key];
      // The thumb lies across two neighbouring keys of one colour, below all others.
      if (low === high) return low === 1 && at === 1 && to - from <= 2 && black(from) === black(to);
      if (low > high) return false;
      if (rolled && below < at - 1) return true;
      const [least, most] = practical(low, high, span);
      const mm = centre(to) - centre(from);
      return mm >= least - FOLD - 1e-9 && mm <= most * (rolled ? ROLL : 1) + STRETCH + 1e-9;
    }),
  );
}

/** The thumb takes two keys only where nothing else is possible. */
function waysOf(keys: readonly Key[], span: number, rolled = false): readonly (readonly Finger[])[] {
  // Five fingers and a thumb that takes two.
  if (keys.length > 6) return [];
  const ways = all(keys).filter((fingers) => holds(keys, fingers, span, rolled));
  const plain = ways.filter(([first, second]) => first !== second);
  return plain.length > 0 ? plain : ways;
}

const found = (
  kept: readonly number[],
  ways: readonly (readonly Finger[])[],
  trouble: Held['trouble'],
): Held => ({
  kept,
  candidates: ways.map((way) => way.join('')).sort(),
  trouble,
});

/** Held keys in the order in which they are let go: pedalled ones first, then those furthest from the struck keys. */
function letGo(keys: readonly Key[]): readonly number[] {
  const struck = keys.filter((own) => own.struck);
  const middle = struck.reduce((sum, { key }) => sum + centre(key), 0) / struck.length;
  const away = (at: number): number => Math.round(1e6 * Math.abs(centre(keys[at]!.key) - middle));
  return keys
    .flatMap((own, at) => (own.struck ? [] : [at]))
    .sort((a, b) => Number(keys[b]!.pedalled) - Number(keys[a]!.pedalled) || away(b) - away(a) || a - b);
}

export function heldBy(keys: readonly Key[], span: number, rolled: boolean): Held {
  const indices = keys.map((_, at) => at);
  const of = (kept: readonly number[]): Key[] => kept.map((at) => keys[at]!);
  const whole = waysOf(keys, span);
  if (whole.length > 0) return found(indices, whole, 'none');
  const struck = indices.filter((at) => keys[at]!.struck);
  if (struck.length > 0) {
    const gone = letGo(keys);
    for (let count = 1; count <= gone.length; count++) {
      const kept = indices.filter((at) => !gone.slice(0, count).includes(at));
      const ways = waysOf(of(kept), span);
      if (ways.length > 0) return found(kept, ways, 'none');
    }
  }
  if (rolled) {
    const ways = waysOf(of(struck), span, true);
    if (ways.length > 0) return found(struck, ways, 'none');
  }
  const given = keys.some(({ fixed }) => fixed !== undefined);
  const plain = keys.map((own) => ({ ...own, fixed: undefined }));
  if (given && keys.length <= FINGERS.length && heldBy(plain, span, rolled).trouble === 'none') {
    // Digits that are to blame are kept in whatever order; any other finger plays one key, and none that is given.
    const ways = all(keys).filter((fingers) =>
      fingers.every(
        (finger, at) => keys[at]!.fixed !== undefined || fingers.filter((own) => own === finger).length === 1,
      ),
    );
    if (ways.length > 0) return found(indices, ways, 'digits');
  }
  return largest(keys, struck, span);
}

/** The most struck keys that can be played, of as many those with the highest; the outer keys keep the outer fingers. */
function largest(keys: readonly Key[], struck: readonly number[], span: number): Held {
  const sets = Array.from({ length: 2 ** struck.length }, (_, bits) =>
    struck.filter((__, nth) => (bits >> nth) & 1),
  );
  const order = (own: readonly number[]): string =>
    [...own]
      .reverse()
      .map((at) => String.fromCharCode(at + 65))
      .join('');
  sets.sort((a, b) => b.length - a.length || (order(b) > order(a) ? 1 : -1));
  for (const kept of sets) {
    if (kept.length === 0 || kept.length === struck.length) continue;
    // Given digits are kept where they can be.
    const given = kept.map((at) => keys[at]!);
    const honoured = waysOf(given, span);
    const free = given.map((own) => ({ ...own, fixed: undefined }));
    const ways = honoured.length > 0 ? honoured : waysOf(free, span);
    if (ways.length === 0) continue;
    const framed = ways.filter(
      (way) => (kept[0] !== struck[0] || way[0] === 1) && (kept.at(-1) !== struck.at(-1) || way.at(-1) === 5),
    );
    return found(kept, framed.length > 0 ? framed : ways, 'reach');
  }
  return found([], [[]], 'reach');
}
