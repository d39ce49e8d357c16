import {
  BLACK_FRONT,
  BLACK_TOP_WIDTH,
  FALLBOARD,
  isBlack,
  keyX,
  WHITE_WIDTH,
} from '../../keyboard/key-plan.js';
import { type Shape, shape } from '../svg.js';

/** Lowest and highest key of the piano. */
const LOWEST = 21;
const HIGHEST = 108;
/** Semitones that are drawn at least, and beyond what is in use on either side: an octave, and about two white keys. */
const LEAST_KEYS = 12;
const BESIDE = 3;

/** Where the keyboard lies on paper, in mm. */
export interface Plan {
  readonly scale: number;
  readonly from: number;
  readonly to: number;
  readonly x: (mm: number) => number;
  /** @param depth mm from the keys' front edge towards the fallboard */
  readonly y: (depth: number) => number;
}

/** The white keys from and to which a picture reaches so that it shows some keys with their neighbours. */
export function keyRange(keys: readonly number[]): readonly [from: number, to: number] {
  let from = Math.min(...keys) - BESIDE;
  let to = Math.max(...keys) + BESIDE;
  while (to - from < LEAST_KEYS) {
    from -= 1;
    to += 1;
  }
  from = Math.max(LOWEST, from);
  to = Math.min(HIGHEST, to);
  return [isBlack(from) ? from - 1 : from, isBlack(to) ? to + 1 : to];
}

/** @param left mm on paper to the left of the keys; @param top above them */
export function planOf(
  [from, to]: readonly [number, number],
  scale: number,
  left: number,
  top: number,
): Plan {
  const start = keyX(from) - WHITE_WIDTH / 2;
  return {
    scale,
    from,
    to,
    x: (mm) => left + (mm - start) * scale,
    y: (depth) => top + (FALLBOARD - depth) * scale,
  };
}

/** The keys themselves: white and black whatever the page's colours are. */
export function keyShapes(plan: Plan): Shape[] {
  const white: Shape[] = [];
  const black: Shape[] = [];
  for (let key = plan.from; key <= plan.to; key++) {
    const isBlackKey = isBlack(key);
    const width = isBlackKey ? BLACK_TOP_WIDTH : WHITE_WIDTH;
    const front = isBlackKey ? BLACK_FRONT : 0;
    (isBlackKey ? black : white).push(
      shape('rect', {
        x: plan.x(keyX(key) - width / 2),
        y: plan.y(FALLBOARD),
        width: width * plan.scale,
        height: (FALLBOARD - front) * plan.scale,
        fill: isBlackKey ? '#333' : '#fff',
        stroke: '#333',
        class: isBlackKey ? 'black-key' : 'white-key',
      }),
    );
  }
  return [...white, ...black];
}
