import { rounded } from '../../numeric/fixed-point.js';
import type { Thresholds } from '../../options/review-options.js';
import { fingersAt, type Judged } from '../measure/judged.js';
import {
  KINDS,
  type Movement,
  movementOf,
  noMovement,
  printedMovement,
  sumOfMovements,
  total,
} from '../measure/kinds.js';
import type { Passage } from '../measure/passages.js';
import { type Alternative, CONTEXT, Window } from '../measure/window.js';

/** A change of a few digits that saves movement, confirmed with everything else as printed. */
export interface Remedy extends Alternative {
  /** mm of the search that it saves, what no hand can hold included. */
  readonly gained: number;
  /** mm by kind over the slices that it touches, below 0 where it takes more; `saved` is their sum. */
  readonly kinds: Movement;
  /** True where it makes possible what the printed digits do not: their cost in the search is no movement. */
  readonly enables: boolean;
  /** Printed digits that it changes. */
  readonly changed: number;
  /** The same, those that are changed alike on one key once. */
  readonly distinct: number;
  /** True where it saves less than its digits must: both fingerings work. */
  readonly tie: boolean;
}

/** Prices of a changed digit at which smaller changes are sought, as multiples of the least that one must save. */
const HIGHER_PRICES = [3, 8] as const;
/** Share of the price of a digit at which a fingering is a tie with the printed one. */
const TIE = 0.1;
/** Share of the most that can be saved with which a change of fewer digits is preferred: our choice. */
const ENOUGH = 0.7;
/** Unchanged slices between two changes that are judged apart. */
const APART = 3;

/**
 * The changes worth proposing in a line: fewest printed digits for most movement. Every digit has a price in the search,
 * which is exact; changes that lie apart are judged one by one, each recomputed with all others as printed. The line is
 * searched at a low price, at which all changes show, and only where something changes at higher ones.
 *
 * @param isChosen whether changes that begin in a slice are asked for
 */
export function remediesIn(
  judged: Judged,
  isChosen: (slice: number) => boolean,
  { digit, remark }: Thresholds,
): readonly Remedy[] {
  const line = new Window(judged, 0, judged.views.length);
  const groups = groupsOf(judged, line.cheapest(digit * TIE)).filter(({ from }) => isChosen(from));
  return groups.flatMap((group) => {
    const window = new Window(judged, group.from, group.to);
    const thorough = window.cheapest(digit);
    const best = groupsOf(judged, thorough).flatMap((own) => {
      const whole = own.from === window.from && own.to === window.to;
      const other = whole ? window : new Window(judged, own.from, own.to);
      return apart(judged, other, whole ? thorough : other.cheapest(digit), digit);
    });
    const worth = best.filter(({ saved, enables }) => saved >= remark || enables);
    if (worth.length > 0) return worth;
    // Beside what is worth its digits: another fingering that takes less movement, but many digits.
    const tie = remedyOf(judged, window.cheapest(digit * TIE), true);
    return tie && tie.saved >= remark ? [tie] : [];
  });
}

/** Changed digits from which a change is sought in halves: our choice. */
const MANY = 4;

/** The smallest change within some slices, or, where it is of many digits, those of the halves that save nearly as much. */
function apart(judged: Judged, window: Window, thorough: Alternative, digit: number): readonly Remedy[] {
  const whole = smallest(judged, window, thorough, digit);
  if (!whole || whole.changed < MANY) return whole ? [whole] : [];
  const { from, to } = window;
  const middle = (from + to) >> 1;
  const halves = [
    [from, middle],
    [middle, to],
  ].map(([start, end]) => {
    const half = new Window(judged, start!, end!);
    return apart(judged, half, half.cheapest(digit), digit);
  });
  const sum = halves.flat().reduce((mm, own) => mm + own.gained, 0);
  return sum >= ENOUGH * whole.gained ? halves.flat() : [whole];
}

/** The smallest change within some slices that saves nearly as much as the most thorough one. */
function smallest(judged: Judged, window: Window, thorough: Alternative, digit: number): Remedy | undefined {
  const found = [thorough];
  // Of one changed digit, or of none, there is nothing smaller.
  for (const price of HIGHER_PRICES) {
    if (changedIn(judged, found.at(-1)!) <= 1) break;
    found.push(window.cheapest(price * digit));
  }
  const best = found.findLast((own) => own.saved >= ENOUGH * thorough.saved);
  const remedy = best && remedyOf(judged, best);
  return remedy && (remedy.saved > 0 || remedy.enables) ? remedy : undefined;
}

/** Printed digits that an alternative changes. */
function changedIn(judged: Judged, alternative: Alternative): number {
  return changesIn(judged, alternative).length;
}

/** Every printed digit that an alternative changes, as its key, the digit and the finger. */
export function changesIn(judged: Judged, { from, to, choice }: Alternative): readonly string[] {
  const changes: string[] = [];
  for (let at = from; at < to; at++) {
    const fingers = fingersAt(judged, choice.path, at);
    judged.digits[at]!.forEach((digit, nth) => {
      if (digit !== undefined && digit !== fingers[nth])
        changes.push(`${judged.views[at]!.keys[nth]} ${digit} ${fingers[nth]}`);
    });
  }
  return changes;
}

/** Undefined where no printed digit changes. */
function remedyOf(judged: Judged, alternative: Alternative, tie = false): Remedy | undefined {
  const changes = changesIn(judged, alternative);
  const changed = changes.length;
  return changed === 0
    ? undefined
    : {
        ...alternative,
        ...measured(judged, alternative),
        gained: alternative.saved,
        changed,
        distinct: new Set(changes).size,
        tie,
      };
}

/** What an alternative saves as movement, over all slices that it can touch. */
export function measured(
  judged: Judged,
  { from, to, choice, saved }: Alternative,
): Pick<Remedy, 'kinds' | 'saved' | 'enables'> {
  const [first, last] = [Math.max(0, from - CONTEXT), Math.min(judged.views.length, to + CONTEXT)];
  const before = sumOfMovements(printedMovement(judged).slice(first, last));
  const after = sumOfMovements(movementOf(judged, choice, first, last));
  const kinds = noMovement();
  for (const kind of KINDS) kinds[kind] = rounded(before[kind] - after[kind]);
  const movement = total(kinds);
  return { kinds, saved: movement, enables: saved - movement > IMPOSSIBLE };
}

/** mm of the search beyond movement that tell of something impossible: our choice, far beyond any movement. */
const IMPOSSIBLE = 200;

/** The slices that an alternative changes, in groups that lie apart. */
function groupsOf({ printed }: Judged, { from, to, choice }: Alternative): readonly Passage[] {
  const groups: { from: number; to: number }[] = [];
  for (let at = from; at < to; at++) {
    if ((choice.path.at(at) ?? printed.path[at]) === printed.path[at]) continue;
    const last = groups.at(-1);
    if (last && at - last.to < APART) last.to = at + 1;
    else groups.push({ from: at, to: at + 1 });
  }
  return groups;
}
