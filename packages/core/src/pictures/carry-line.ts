import type { Line } from '../hands/line.js';
import { keyX } from '../keyboard/key-plan.js';
import type { MotionPlan } from '../motion/plan.js';
import { bandOf, countCrossings, crossingShapes, frameShapes, lineShapes } from './band.js';
import { checkRibbon, type RibbonOptions, type SlicePlace } from './options.js';
import { shape, svgText } from './svg.js';
import { fill, handMark, handWord, pictureWords } from './words/words.js';

/** Height of the band on paper, mm. */
const HEIGHT = 14;
/** mm of the keyboard that a band of its own shows at least: about an octave. */
const LEAST_RANGE = 160;

/**
 * The arm's way along the keyboard under a system, as one `<svg>` in mm: the treble is up, the bass down. The line is
 * where the arm is, a ring a key that is played, so that one sees the arm travel while the fingers play. Dashes and
 * crossings as in `depthRibbon`.
 *
 * @param places the slices to draw, in the order of the page, each at the x of its notes in mm
 * @throws HandlineError OPTION where a place names no slice of the plan or an option is bad
 */
export function carryLine(
  line: Line,
  plan: MotionPlan,
  places: readonly SlicePlace[],
  options: RibbonOptions,
): string {
  checkRibbon(line, plan, places, options);
  const { width, height = HEIGHT, language = 'en', part, title } = options;
  const words = pictureWords(language);
  const keys = places.flatMap(({ slice, x }) =>
    line.slices[slice]!.struck.map(({ key }) => ({ slice, x, at: keyX(key) })),
  );
  const arms = places.map(({ slice }) => plan.slices[slice]!.arm);
  const band = bandOf(width, height, options.range ?? rangeOf([...arms, ...keys.map(({ at }) => at)]));
  const above = `${handMark(language, line.hand, part)} ↑ ${words.right}`;
  let travel = 0;
  for (let nth = 1; nth < arms.length; nth++) travel += Math.abs(arms[nth]! - arms[nth - 1]!);
  const parts = { travel: Math.round(travel), crossings: countCrossings(plan, places) };
  return svgText({
    width,
    height: band.height,
    kind: 'carry',
    title: title ?? fill(words.carryTitle, { hand: handWord(language, line.hand, part) }),
    description: places.length === 0 ? words.none : fill(words.carry, parts),
    language,
    shapes: [
      ...frameShapes(band, above, `↓ ${words.left}`),
      ...keys.map(({ slice, x, at }) =>
        shape('circle', { cx: x, cy: band.y(at), r: 0.7, class: 'key', 'data-slice': slice }),
      ),
      ...lineShapes(line, places, (slice) => band.y(plan.slices[slice]!.arm)),
      ...crossingShapes(plan, places, band, above),
    ],
  });
}

/** Lowest and highest place, mm from D4. */
function rangeOf(places: readonly number[]): readonly [number, number] {
  if (places.length === 0) return [-LEAST_RANGE / 2, LEAST_RANGE / 2];
  const [from, to] = [Math.min(...places), Math.max(...places)];
  const missing = Math.max(0, LEAST_RANGE - (to - from));
  return [from - missing / 2, to + missing / 2];
}
