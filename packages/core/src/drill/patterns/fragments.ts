import { type Place, steps } from './ladder-lines.js';

/** A piece of a scale that runs by step and turns once at most. */
export interface Fragment {
  /** Place of the first note, 0 for the tonic. */
  readonly start: number;
  readonly length: number;
  /** Which note is the turning point, 2 to `length`; `length` where it does not turn. */
  readonly turn: number;
  readonly first: 'up' | 'down';
}

export interface FragmentChoice {
  readonly from: number;
  readonly to: number;
  /** Places of the first notes, 0 for the tonic; absent: every one. */
  readonly starts?: readonly number[];
  /** Notes at which it turns; absent: every one. */
  readonly turns?: readonly number[];
}

/** Every fragment of these lengths: from every start, up or down, turning at every note or not at all. */
export function fragmentsOf(size: number, { from, to, starts, turns }: FragmentChoice): readonly Fragment[] {
  const found: Fragment[] = [];
  for (let length = from; length <= to; length++) {
    for (const start of starts ?? Array.from({ length: size }, (_, at) => at)) {
      for (let turn = 2; turn <= length; turn++) {
        if (turns && !turns.includes(turn)) continue;
        found.push({ start, length, turn, first: 'up' }, { start, length, turn, first: 'down' });
      }
    }
  }
  return found;
}

export function fragmentPlaces({ start, length, turn, first }: Fragment): readonly Place[] {
  const sign = first === 'up' ? 1 : -1;
  const corner = start + sign * (turn - 1);
  return [...steps(start, corner), ...steps(corner, corner - sign * (length - turn)).slice(1)];
}
