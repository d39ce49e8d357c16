import { fingerLine } from '../../fingering/finger.js';
import { cheapestPaths } from '../../fingering/search/k-best.js';
import type { PlayingContext } from '../../hands/context.js';
import { rounded } from '../../numeric/fixed-point.js';
import type { Finger } from '../../score/model.js';
import { scaleFingers } from '../causes/scale-fingering.js';
import type { Place } from '../findings/places.js';
import { changesOf } from '../findings/remedy-report.js';
import { rowByMeasure, rowOf } from '../findings/rows.js';
import { type BySlice, fingersAt, type Judged } from '../measure/judged.js';
import { KINDS, movementOf, sumOfMovements, total } from '../measure/kinds.js';
import type { Passage } from '../measure/passages.js';
import { realKey } from '../measure/scene.js';
import { type Alternative, Window } from '../measure/window.js';
import type { WholeFingering } from '../report-types.js';

/** Slices after a passage whose movement still depends on it: a chain of three. */
const AFTER = 2;

/** What editors would usually print for a line, by slice and struck key. */
export type Usual = ReturnType<typeof usualFingers>;

export function usualFingers({ line, hand }: Judged, context: PlayingContext) {
  return fingerLine(line, hand, { ...context, keepDigits: false }).fingering.slices;
}

/**
 * Whole ways to finger a passage with everything else as printed: the printed one, what is usual in print, the fingering of
 * the whole scale where the passage lies in one, and those of least movement; `count` at most, all different.
 */
export function wholeFingerings(
  judged: Judged,
  passage: Passage,
  place: Place,
  usual: Usual,
  count: number,
): readonly WholeFingering[] {
  const window = new Window(judged, passage.from, passage.to);
  const found: { kind: WholeFingering['kind']; own: Alternative }[] = [];
  const add = (kind: WholeFingering['kind'], own: Alternative | undefined) => {
    if (own && found.length < count && !found.some((other) => isSame(judged, other.own, own)))
      found.push({ kind, own });
  };
  add('printed', window.with(judged.printed.path));
  add(
    'usual',
    withFingers(judged, window, (at) => usual[at]!.struck),
  );
  add('scale', scaleOf(judged, window));
  for (const path of cheapestPaths(window.section, count + 1))
    add('movement', window.with(window.placed(path)));
  return found.map(({ kind, own }) => reported(judged, passage, place, kind, own));
}

/** The same fingers on all struck keys; on held ones they may differ. */
function isSame(judged: Judged, one: Alternative, other: Alternative): boolean {
  const fingers = ({ choice, from, to }: Alternative) =>
    JSON.stringify(fingersOf(judged, choice.path, from, to));
  return fingers(one) === fingers(other);
}

/** The passage with these fingers on its struck keys; undefined where the hand cannot hold them. */
function withFingers(
  judged: Judged,
  window: Window,
  fingers: (at: number) => readonly (Finger | null)[],
): Alternative | undefined {
  const path = [...judged.printed.path];
  for (let at = window.from; at < window.to; at++) {
    const view = judged.views[at]!;
    const own = fingers(at);
    const fits = (candidate: readonly Finger[]) =>
      candidate.every((finger, nth) => !view.struck[nth] || finger === own[view.source[nth]!]);
    const printed = fingersAt(judged, judged.printed.path, at);
    const candidate = fits(printed) ? path[at]! : view.candidates.findIndex((other) => fits(other.fingers));
    if (candidate < 0) return undefined;
    path[at] = candidate;
  }
  return window.with(path);
}

/** The digits of the whole scale in which the passage lies. */
function scaleOf(judged: Judged, window: Window): Alternative | undefined {
  const keys: number[] = [];
  for (let at = window.from; at < window.to; at++) {
    const view = judged.views[at]!;
    if (view.keys.length !== 1) return undefined;
    keys.push(realKey(view, 0));
  }
  if (keys.some((key, nth) => nth > 0 && Math.abs(key - keys[nth - 1]!) > WIDEST_STEP)) return undefined;
  const map = scaleFingers(judged.line.hand, judged.hand, keys)[0];
  return map && withFingers(judged, window, (at) => [map.get(keys[at - window.from]! % OCTAVE)!]);
}

/** Semitones of the widest step of a scale: the augmented second of harmonic minor. */
const WIDEST_STEP = 3;
const OCTAVE = 12;

function reported(
  judged: Judged,
  { from, to }: Passage,
  place: Place,
  kind: WholeFingering['kind'],
  { choice }: Alternative,
): WholeFingering {
  const { printed } = judged;
  const end = Math.min(judged.views.length, to + AFTER);
  const [before, after] = [printed, choice].map((of) => sumOfMovements(movementOf(judged, of, from, end)));
  const own = sumOfMovements(movementOf(judged, printed, from, to));
  const movement = { ...own };
  for (const kindOf of KINDS) movement[kindOf] = rounded(own[kindOf] + after![kindOf] - before![kindOf]);
  return {
    kind,
    fingers: fingersOf(judged, choice.path, from, to),
    movement,
    mm: total(movement),
    more: rounded(total(movement) - total(own)),
    differs: changesOf(judged, place, choice.path, from, to),
    text: rowByMeasure(
      rowOf(judged, choice.path, from, to),
      judged.line.slices.slice(from, to).map(({ measure }) => measure),
      place.language,
    ),
  };
}

/** By slice, from the lowest struck key up; null where no finger takes it. */
function fingersOf(judged: Judged, path: BySlice, from: number, to: number) {
  const fingers: (readonly (Finger | null)[])[] = [];
  for (let at = from; at < to; at++) {
    const view = judged.views[at]!;
    const own: (Finger | null)[] = view.slice.struck.map(() => null);
    fingersAt(judged, path, at).forEach((finger, nth) => {
      if (view.struck[nth]) own[view.source[nth]!] = finger;
    });
    fingers.push(own);
  }
  return fingers;
}
