import type { HandModel } from '../../anatomy/hand.js';
import type { SliceView } from '../../fingering/view/view.js';
import type { Line } from '../../hands/line.js';
import type { GivenFingers } from '../../motion/fingers-in-use.js';
import { planMotion } from '../../motion/motion.js';
import type { SliceMotion } from '../../motion/plan.js';
import { type TipTable, tipTables } from '../../motion/tips.js';
import type { Finger } from '../../score/model.js';
import { type BySlice, fingersAt, type Judged, type OtherChoice } from './judged.js';

/** What the other hand holds while this one plays, as this hand's view sees it. */
export interface Across {
  /** mm: how far the other hand comes, its thumb included. */
  readonly edge: number;
  /** mm of its nearest key. */
  readonly nearest: number;
  readonly finger: Finger;
  /** MIDI number of that key. */
  readonly key: number;
  /** Of its own line. */
  readonly slice: number;
}

/** A fingering of a line with its motion: what the causes look at. */
export interface Scene {
  readonly line: Line;
  readonly hand: HandModel;
  readonly tips: TipTable;
  /** Slices as the right hand sees them. */
  readonly views: readonly SliceView[];
  /** By slice and key of its view. */
  readonly fingers: readonly (readonly Finger[])[];
  readonly motion: readonly SliceMotion[];
  /** Slices where the arm is not clear of the thumb in time. */
  readonly late: ReadonlySet<number>;
  readonly unholdable: ReadonlySet<number>;
  readonly shared: ReadonlySet<number>;
  /** By slice and key of its view: the digit in print. */
  readonly digits: Judged['digits'];
  /** By slice: what the player's other hand holds meanwhile. */
  readonly across: readonly (Across | undefined)[];
}

/** The printed digits of a whole line, completed. */
export function printedScene(judged: Judged, across: Scene['across'] = []): Scene {
  return sceneOf(judged, judged.printed, 0, judged.views.length, across);
}

/** Another choice, the slices from `from` up to `to` only. */
export function sceneOf(
  judged: Judged,
  { path }: Pick<OtherChoice, 'path'>,
  from: number,
  to: number,
  across: Scene['across'] = [],
): Scene {
  const { line, hand, views, unholdable, shared, digits } = judged;
  const given = givenOf(judged, path, from, to);
  const plan = planMotion({ ...line, slices: line.slices.slice(from, to) }, given, hand);
  const motion: SliceMotion[] = [];
  const fingers: (readonly Finger[])[] = [];
  for (let at = from; at < to; at++) fingers[at] = fingersAt(judged, path, at);
  plan.slices.forEach((own, nth) => {
    motion[from + nth] = own;
  });
  return {
    line,
    hand,
    tips: tipTables.of(hand),
    views,
    fingers,
    motion,
    late: new Set(plan.findings.map(({ slice }) => from + slice)),
    unholdable: path === judged.printed.path ? unholdable : unchanged(judged, path, unholdable),
    shared,
    digits,
    across,
  };
}

/** Those of the slices that a choice leaves as printed. */
function unchanged({ printed }: Judged, path: BySlice, slices: ReadonlySet<number>): ReadonlySet<number> {
  if (slices.size === 0) return slices;
  return new Set([...slices].filter((at) => (path.at(at) ?? printed.path[at]) === printed.path[at]));
}

/** The fingers of a choice in the order of the slices' own keys; null where no finger takes one. */
export function givenOf(judged: Judged, path: BySlice, from: number, to: number): GivenFingers {
  return {
    slices: judged.views.slice(from, to).map((view) => {
      const struck: (Finger | null)[] = view.slice.struck.map(() => null);
      const held: (Finger | null)[] = view.slice.held.map(() => null);
      const fingers = fingersAt(judged, path, view.index);
      fingers.forEach((finger, nth) => {
        (view.struck[nth] ? struck : held)[view.source[nth]!] = finger;
      });
      return { struck, held };
    }),
  };
}

/** MIDI number of a view's key on the real keyboard. */
export function realKey({ slice, source, struck }: SliceView, nth: number): number {
  return (struck[nth] ? slice.struck : slice.held)[source[nth]!]!.key;
}

/** A line's slices with their digits in print. */
export type Digits = Pick<Scene, 'views' | 'digits'>;

/** Whether the digit on a struck key of a slice is in print. @param key MIDI number */
export function isPrinted({ views, digits }: Digits, at: number, key: number): boolean {
  const view = views[at]!;
  return view.keys.some(
    (_, nth) => view.struck[nth]! && realKey(view, nth) === key && digits[at]![nth] !== undefined,
  );
}

/** The same of a key that is struck or held: with which digit was it struck? @param key MIDI number */
export function wasPrinted(scene: Digits, slice: number, key: number): boolean {
  let at = slice;
  while (at > 0 && !scene.views[at]!.slice.struck.some((own) => own.key === key)) at--;
  return isPrinted(scene, at, key);
}

/** Two single keys struck one after the other in one go, as the right hand sees them. */
export interface Step {
  readonly from: Finger;
  readonly to: Finger;
  /** Index of the key in the earlier view, and in the later one. */
  readonly was: number;
  readonly is: number;
  /** Semitones, up positive. */
  readonly interval: number;
  /** mm, up positive. */
  readonly mm: number;
}

/** The step into a slice; undefined where the hand starts afresh, or either slice strikes several keys. */
export function stepInto({ views, fingers }: Scene, at: number): Step | undefined {
  const [before, view] = [views[at - 1], views[at]!];
  if (!before || view.fresh || view.cut) return undefined;
  const [was, is] = [before.struck.indexOf(true), view.struck.indexOf(true)];
  if (was < 0 || is < 0) return undefined;
  if (before.struck.indexOf(true, was + 1) >= 0 || view.struck.indexOf(true, is + 1) >= 0) return undefined;
  return {
    from: fingers[at - 1]![was]!,
    to: fingers[at]![is]!,
    was,
    is,
    interval: view.keys[is]! - before.keys[was]!,
    mm: view.x[is]! - before.x[was]!,
  };
}
