import { type Line, writtenAs } from '../../hands/line.js';
import { keyX, OCTAVE_WIDTH, WHITE_WIDTH } from '../../keyboard/key-plan.js';
import type { FingerDepth, MotionPlan, SliceMotion } from '../../motion/plan.js';
import { checkKeyboard, type KeyboardOptions } from '../options.js';
import { decimal, label, type Shape, shape, svgText } from '../svg.js';
import { crossingWord, fill, fingerWord, handWord, keyWord, pictureWords } from '../words/words.js';
import { keyRange, keyShapes, type Plan, planOf } from './keys.js';
import { type Way, wayAt, wayShapes } from './travel.js';

/** mm on paper for a mm of the keyboard: an octave is 49 mm wide. */
const SCALE = 0.3;
/** mm on paper beside and above the keys, and below them for the forearm. */
const SIDE = 6;
const TOP = 1;
const BOTTOM = 9;
/** Radius of a fingertip and size of its digit, mm of the keyboard. */
const TIP = 9;
const DIGIT = 13;
/** Width of the forearm where it meets the keys' front edge, mm of the keyboard: from memory. */
const WRIST = 60;

/**
 * The keyboard from above at one slice, as one `<svg>` in mm: the fingers in use on their keys (a full ring strikes, a
 * dashed one holds, a dotted one has left its key or is still to come), the depth of the forearm as a line across the keys with its move beside them, the arm below, and
 * the way of a thumb that passes or of a finger that goes over it. Legible without colour; keys are white and black
 * whatever the page's colours are.
 *
 * @param slice index in `Line.slices`
 * @throws HandlineError OPTION where there is no such slice or an option is bad
 */
export function keyboardView(
  line: Line,
  plan: MotionPlan,
  slice: number,
  options: KeyboardOptions = {},
): string {
  checkKeyboard(line, plan, slice, options);
  const { scale = SCALE } = options;
  const motion = plan.slices[slice]!;
  const way = wayAt(line, plan, slice);
  const range = keyRange(shownKeys(line, slice, motion, way));
  const keys = planOf(range, scale, SIDE, TOP);
  const right = keys.x(keyX(range[1]) + WHITE_WIDTH / 2);
  const { struck } = line.slices[slice]!;
  const isStruck = ({ key }: FingerDepth) => struck.some((own) => own.key === key);
  return svgText({
    width: right + SIDE,
    height: keys.y(0) + BOTTOM,
    kind: 'keyboard',
    ...wordsFor(line, slice, motion, options),
    shapes: [
      ...keyShapes(keys),
      ...depthShapes(motion, keys, right),
      ...armShapes(motion.arm, keys),
      ...(way ? wayShapes(way, keys, TIP * scale) : []),
      ...(way && !way.arrived ? tipShapes(way.to, keys, 'elsewhere') : []),
      ...(way?.thumb && !inUse(motion, way.thumb) ? tipShapes(way.thumb, keys, 'elsewhere') : []),
      ...motion.fingers.flatMap((one) => tipShapes(one, keys, isStruck(one) ? 'strikes' : 'holds')),
    ],
  });
}

/** Keys that the picture must show. */
function shownKeys({ slices }: Line, at: number, { fingers }: SliceMotion, way: Way | undefined): number[] {
  const { struck, held } = slices[at]!;
  const keys = [...struck, ...held].map(({ key }) => key);
  const used = fingers.map(({ key }) => key);
  return [
    ...keys,
    ...used,
    ...(way ? [way.from.key, way.to.key, ...(way.thumb ? [way.thumb.key] : [])] : []),
  ];
}

function inUse({ fingers }: SliceMotion, { finger, key }: FingerDepth): boolean {
  return fingers.some((own) => own.finger === finger || own.key === key);
}

/** Dashes of the ring of a finger that strikes, of one that holds, and of one that has left or is to come. */
const RING = { strikes: '', holds: '1 0.8', elsewhere: '0.2 0.9' } as const;

function tipShapes({ finger, key, tip }: FingerDepth, plan: Plan, kind: keyof typeof RING): Shape[] {
  const [x, y] = [plan.x(keyX(key)), plan.y(tip)];
  const size = DIGIT * plan.scale;
  const dashes = RING[kind];
  return [
    shape('circle', {
      cx: x,
      cy: y,
      r: TIP * plan.scale,
      class: kind,
      fill: '#fff',
      stroke: '#000',
      'stroke-width': kind === 'strikes' ? 0.6 : 0.4,
      ...(dashes && { 'stroke-dasharray': dashes }),
    }),
    label(`${finger}`, x, y + size * 0.36, size, {
      'text-anchor': 'middle',
      'font-weight': kind === 'strikes' ? 'bold' : 'normal',
      fill: '#000',
    }),
  ];
}

/** The forearm's depth across the keys, and beside them an arrow from where it was. */
function depthShapes({ depth, depthChange }: SliceMotion, keys: Plan, right: number): Shape[] {
  const y = keys.y(depth);
  const from = keys.y(depth - depthChange);
  const x = right + SIDE / 2;
  const line = (start: number, end: number, stroke: string, dashes: string, width: number) =>
    shape('path', {
      d: `M${decimal(start)} ${decimal(y)}H${decimal(end)}`,
      stroke,
      'stroke-width': width,
      ...(dashes && { 'stroke-dasharray': dashes }),
    });
  const left = SIDE;
  const shapes = [
    line(left, right, '#fff', '', 0.7),
    line(left, right, '#000', '2 1', 0.3),
    line(left - 3, left - 0.5, 'currentColor', '', 0.5),
    line(right + 0.5, right + SIDE / 2 + 1.5, 'currentColor', '', 0.5),
  ];
  if (Math.round(depthChange) === 0) return shapes;
  const towards = depthChange > 0 ? 1 : -1;
  const barb = decimal(y + towards * 1.4);
  const arrow = `M${decimal(x)} ${decimal(from)}V${decimal(y)}M${decimal(x - 1)} ${barb}L${decimal(x)} ${decimal(y)}L${decimal(x + 1)} ${barb}`;
  return [...shapes, shape('path', { d: arrow, class: depthChange > 0 ? 'in' : 'out', 'stroke-width': 0.5 })];
}

/** The forearm below the keys, left out where it lies beyond the keys that are drawn. */
function armShapes(arm: number, keys: Plan): Shape[] {
  const [least, most] = [keyX(keys.from) - OCTAVE_WIDTH / 2, keyX(keys.to) + OCTAVE_WIDTH / 2];
  if (arm < least || arm > most) return [];
  const half = (WRIST / 2) * keys.scale;
  const clamp = (x: number) =>
    Math.min(Math.max(x, 0.3), keys.x(keyX(keys.to) + WHITE_WIDTH / 2) + SIDE - 0.3);
  const x = keys.x(arm);
  const top = keys.y(0) + 2;
  const bottom = keys.y(0) + BOTTOM - 0.3;
  const [left, right] = [decimal(clamp(x - half)), decimal(clamp(x + half))];
  return [
    shape('path', {
      d: `M${left} ${decimal(bottom)}V${decimal(top + 1.5)}Q${left} ${decimal(top)} ${decimal(clamp(x))} ${decimal(top)}Q${right} ${decimal(top)} ${right} ${decimal(top + 1.5)}V${decimal(bottom)}`,
      class: 'arm',
      'stroke-width': 0.3,
    }),
    shape('path', {
      d: `M${decimal(clamp(x))} ${decimal(top + 1.2)}V${decimal(bottom)}`,
      'stroke-width': 0.3,
      'stroke-dasharray': '1 1',
    }),
  ];
}

function wordsFor(
  line: Line,
  at: number,
  motion: SliceMotion,
  { language = 'en', part, title }: KeyboardOptions,
) {
  const words = pictureWords(language);
  const slice = line.slices[at]!;
  const isStruck = (key: number) => slice.struck.some((own) => own.key === key);
  const fingers = motion.fingers
    .map(({ finger, key }) =>
      fill(isStruck(key) ? words.fingerOn : words.holding, {
        finger: fingerWord(language, finger),
        key: keyWord(language, key, writtenAs(slice, key)),
      }),
    )
    .join(', ');
  const mm = Math.round(Math.abs(motion.depthChange));
  const moved = fill(motion.depthChange > 0 ? words.furtherIn : words.furtherOut, { mm });
  const sentences = [
    `${fill(words.forearm, { depth: Math.round(motion.depth) })}${mm === 0 ? '' : `, ${moved}`}`,
    ...(motion.crossing ? [crossingWord(language, motion.crossing)] : []),
  ];
  const hand = handWord(language, line.hand, part);
  return {
    title: title ?? fill(words.keyboardTitle, { hand, fingers: fingers || words.nothingPlayed }),
    description: `${sentences.join('; ')}.`,
    language,
  };
}
