import type { Line } from '../hands/line.js';
import { BLACK_FRONT } from '../keyboard/key-plan.js';
import type { MotionPlan } from '../motion/plan.js';
import { type Band, bandOf, countCrossings, crossingShapes, frameShapes, lineShapes } from './band.js';
import { checkRibbon, type RibbonOptions, type SlicePlace } from './options.js';
import { decimal, type Shape, shape, svgText } from './svg.js';
import { depthWord, fill, handMark, handWord, pictureWords } from './words/words.js';

/** Height of the band on paper, mm. */
const HEIGHT = 12;
/** mm of depth that a band of its own shows at least, so that small moves look small. */
const LEAST_RANGE = 50;
/** Change of depth in mm from which a slice is marked as a move: what the densest cues still tell of. */
const MARKED_MOVE = 5;

/**
 * The forearm's way in and out under a system, as one `<svg>` in mm: the fallboard is up, the player down. A triangle on
 * the line points in or out where the forearm moves by 5 mm or more, a dot stands where it stays; the shaded part of the
 * band lies between the black keys; a dashed line crosses a rest. Below the band stand thumbs that pass, above it
 * fingers that cross over. Legible without colour.
 *
 * @param places the slices to draw, in the order of the page, each at the x of its notes in mm
 * @throws HandlineError OPTION where a place names no slice of the plan or an option is bad
 */
export function depthRibbon(
  line: Line,
  plan: MotionPlan,
  places: readonly SlicePlace[],
  options: RibbonOptions,
): string {
  checkRibbon(line, plan, places, options);
  const { width, height = HEIGHT, language = 'en', part, title } = options;
  const words = pictureWords(language);
  const depths = places.map(({ slice }) => plan.slices[slice]!.depth);
  const range = options.range ?? rangeOf(depths);
  const band = bandOf(width, height, range);
  const changes = places.map(({ slice }) => plan.slices[slice]!.depthChange);
  const parts = {
    least: Math.round(Math.min(...depths)),
    most: Math.round(Math.max(...depths)),
    ins: changes.filter((change) => change >= MARKED_MOVE).length,
    outs: changes.filter((change) => change <= -MARKED_MOVE).length,
    crossings: countCrossings(plan, places),
  };
  const above = `${handMark(language, line.hand, part)} ↑ ${depthWord(language, 'in')}`;
  const yAt = (slice: number) => band.y(plan.slices[slice]!.depth);
  return svgText({
    width,
    height: band.height,
    kind: 'depth',
    title: title ?? fill(words.depthTitle, { hand: handWord(language, line.hand, part) }),
    description: places.length === 0 ? words.none : fill(words.depth, parts),
    language,
    shapes: [
      ...blackKeys(band, range),
      ...frameShapes(band, above, `↓ ${depthWord(language, 'out')}`),
      ...lineShapes(line, places, yAt),
      ...places.map(({ slice, x }) => mark(slice, x, yAt(slice), plan.slices[slice]!.depthChange)),
      ...crossingShapes(plan, places, band, above),
    ],
  });
}

/** Lower and upper edge in mm, to whole centimetres. */
function rangeOf(depths: readonly number[]): readonly [number, number] {
  const from = Math.floor(Math.min(BLACK_FRONT, ...depths) / 10) * 10;
  const to = Math.ceil(Math.max(BLACK_FRONT, ...depths) / 10) * 10;
  const missing = Math.max(0, LEAST_RANGE - (to - from));
  return [from - missing / 2, to + missing / 2];
}

/** Where the black keys are. */
function blackKeys(band: Band, [from, to]: readonly [number, number]): Shape[] {
  if (to <= BLACK_FRONT) return [];
  const bottom = from >= BLACK_FRONT ? band.bottom : band.y(BLACK_FRONT);
  return [
    shape('rect', {
      x: 0,
      y: band.top,
      width: band.width,
      height: bottom - band.top,
      class: 'black-keys',
      fill: 'currentColor',
      'fill-opacity': '0.1',
      stroke: 'none',
    }),
  ];
}

/** mm: half the width of a triangle, and the radius of a dot. */
const TRIANGLE = 1.15;
const DOT = 0.65;

function mark(slice: number, x: number, y: number, change: number): Shape {
  const filled = { fill: 'currentColor', stroke: 'none', 'data-slice': slice };
  if (Math.abs(change) < MARKED_MOVE)
    return shape('circle', { cx: x, cy: y, r: DOT, class: 'stays', ...filled });
  const towards = change > 0 ? -1 : 1;
  const [left, right] = [decimal(x - TRIANGLE), decimal(x + TRIANGLE)];
  const base = decimal(y - towards * TRIANGLE * 0.7);
  return shape('path', {
    d: `M${left} ${base}L${decimal(x)} ${decimal(y + towards * TRIANGLE * 1.1)}L${right} ${base}Z`,
    class: change > 0 ? 'in' : 'out',
    ...filled,
  });
}
