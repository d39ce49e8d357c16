import type { Line } from '../../hands/line.js';
import { keyX } from '../../keyboard/key-plan.js';
import type { FingerDepth, MotionPlan } from '../../motion/plan.js';
import type { Finger } from '../../score/model.js';
import { decimal, type Shape, shape } from '../svg.js';
import type { Plan } from './keys.js';

/** Slices before a crossing among which the finger's last key is looked for: more would be another position. */
const LOOK_BACK = 8;
/** mm of the keyboard by which a way bends towards the player or the fallboard. */
const BEND = 26;

/** The way of a thumb or finger to the key that it takes by a crossing. */
export interface Way {
  readonly finger: Finger;
  readonly from: FingerDepth;
  readonly to: FingerDepth;
  /** The thumb that a finger goes over. */
  readonly thumb?: FingerDepth;
  /** False before the crossing: the thumb is on its way to a key that it does not play yet. */
  readonly arrived: boolean;
  /** Towards the player, as a thumb goes, or towards the fallboard, as a finger goes over it. */
  readonly bends: 'out' | 'in';
}

/** The way of the thumb to, or before, a crossing at this slice, or of the finger that goes over it. */
export function wayAt({ slices }: Line, plan: MotionPlan, at: number): Way | undefined {
  const here = wayInto(plan, at);
  if (here) return { ...here, arrived: true };
  const next = slices[at + 1] && wayInto(plan, at + 1);
  const isThumb = next && next.finger === 1 && !plan.slices[at]!.fingers.some(({ finger }) => finger === 1);
  return isThumb ? { ...next, arrived: false } : undefined;
}

function wayInto(plan: MotionPlan, at: number): Omit<Way, 'arrived'> | undefined {
  const crossing = plan.slices[at]!.crossing;
  if (!crossing || (crossing.kind !== 'thumb-passing' && crossing.kind !== 'finger-over')) return undefined;
  const finger = crossing.to;
  const to = fingerAt(plan, at, finger);
  if (!to) return undefined;
  for (let before = at - 1; before >= Math.max(0, at - LOOK_BACK); before--) {
    const from = fingerAt(plan, before, finger);
    if (!from) continue;
    if (finger === 1) return { finger, from, to, bends: 'out' };
    const thumb = fingerAt(plan, at - 1, 1);
    return { finger, from, to, bends: 'in', ...(thumb && { thumb }) };
  }
  return undefined;
}

function fingerAt({ slices }: MotionPlan, at: number, finger: Finger): FingerDepth | undefined {
  return slices[at]!.fingers.find((one) => one.finger === finger);
}

/** A curve with an arrow's head from key to key, on a light ground so that it shows on black keys. */
export function wayShapes({ from, to, bends }: Way, plan: Plan, radius: number): Shape[] {
  const start = [plan.x(keyX(from.key)), plan.y(from.tip)] as const;
  const side = bends === 'out' ? 1 : -1;
  const x = plan.x(keyX(to.key));
  const y = plan.y(to.tip) + side * radius;
  const extreme = bends === 'out' ? Math.min(from.tip, to.tip) - BEND : Math.max(from.tip, to.tip) + BEND;
  const bend = [(start[0] + x) / 2, plan.y(extreme)] as const;
  const curve = `M${decimal(start[0])} ${decimal(start[1])}Q${decimal(bend[0])} ${decimal(bend[1])} ${decimal(x)} ${decimal(y)}`;
  // The last piece of the curve points from its bend to its end.
  const length = Math.hypot(x - bend[0], y - bend[1]) || 1;
  const [dx, dy] = [(x - bend[0]) / length, (y - bend[1]) / length];
  const back = (turn: number) => `${decimal(x - 1.8 * dx + turn * dy)} ${decimal(y - 1.8 * dy - turn * dx)}`;
  const head = `M${back(0.9)}L${decimal(x)} ${decimal(y)}L${back(-0.9)}`;
  return [
    shape('path', { d: curve + head, stroke: '#fff', 'stroke-width': 1.1 }),
    shape('path', {
      d: curve,
      class: 'thumb-way',
      stroke: '#000',
      'stroke-width': 0.4,
      'stroke-dasharray': '1.2 0.9',
    }),
    shape('circle', { cx: start[0], cy: start[1], r: 0.7, fill: '#000', stroke: '#fff' }),
    shape('path', { d: head, stroke: '#000', 'stroke-width': 0.4 }),
  ];
}
