import { rounded } from '../../numeric/fixed-point.js';
import type { Thresholds } from '../../options/review-options.js';
import { fingersAt, type Judged } from '../measure/judged.js';
import { KINDS, type Movement, movementOf, noMovement, sumOfMovements, total } from '../measure/kinds.js';
import type { Passage } from '../measure/passages.js';
import { type Alternative, CONTEXT, Window } from '../measure/window.js';

/** A change of a few digits that saves movement, confirmed with everything else as printed. */
export interface Remedy extends Alternative {
  /** mm by kind over the slices that it touches, below 0 where it takes more; `saved` is their sum. */
  readonly kinds: Movement;
  /** True where it makes possible what the printed digits do not: their cost in the search is no movement. */
  readonly enables: boolean;
  /** Printed digits that it changes. */
  readonly changed: number;
  /** True where it saves less than its digits must: both fingerings work. */
  readonly tie: boolean;
}

/** Prices of a changed digit, as multiples of the least that one must save, from the most thorough change to the smallest. */
const PRICES = [1, 3, 8] as const;
/** Share of the price of a digit at which a fingering is a tie with the printed one. */
const TIE = 0.1;
/** Share of the most that can be saved with which a change of fewer digits is preferred: our choice. */
const ENOUGH = 0.7;
/** Unchanged slices between two changes that are judged apart. */
const APART = 3;

/**
 * The changes worth proposing in a passage: fewest printed digits for most movement. Every digit has a price in the
 * search, which is exact; changes that lie apart are judged one by one, each recomputed with all others as printed.
 */
export function remediesIn(
  judged: Judged,
  { from, to }: Passage,
  { digit, remark }: Thresholds,
): readonly Remedy[] {
  if (!hasDigits(judged, from, to)) return [];
  const window = new Window(judged, from, to);
  const remedies: Remedy[] = [];
  for (const group of groupsOf(judged, window.cheapest(digit))) {
    const best = smallest(judged, group, digit);
    if (best && (best.saved >= remark || best.enables)) remedies.push(best);
  }
  // Beside what is worth its digits: another fingering that takes less movement, but many digits.
  for (const group of groupsOf(judged, window.cheapest(digit * TIE))) {
    if (remedies.some((own) => own.from < group.to && group.from < own.to)) continue;
    const tie = counted(judged, new Window(judged, group.from, group.to).cheapest(digit * TIE), true);
    if (tie.changed > 0 && tie.saved >= remark) remedies.push(tie);
  }
  return remedies;
}

function hasDigits({ digits }: Judged, from: number, to: number): boolean {
  for (let at = from; at < to; at++) if (digits[at]!.some((digit) => digit !== undefined)) return true;
  return false;
}

/** The smallest change within some slices that saves nearly as much as the most thorough one. */
function smallest(judged: Judged, { from, to }: Passage, digit: number): Remedy | undefined {
  const window = new Window(judged, from, to);
  const found: Remedy[] = [];
  for (const price of PRICES) {
    const remedy = counted(judged, window.cheapest(price * digit));
    if (remedy.changed > 0 && (remedy.saved > 0 || remedy.enables)) found.push(remedy);
  }
  const enabling = found.filter(({ enables }) => enables);
  if (enabling.length > 0) return enabling.at(-1);
  const most = Math.max(...found.map(({ saved }) => saved));
  return found.findLast(({ saved }) => saved >= ENOUGH * most);
}

function counted(judged: Judged, alternative: Alternative, tie = false): Remedy {
  let changed = 0;
  for (let at = alternative.from; at < alternative.to; at++) {
    const fingers = fingersAt(judged, alternative.choice.path, at);
    judged.digits[at]!.forEach((digit, nth) => {
      if (digit !== undefined && digit !== fingers[nth]) changed++;
    });
  }
  return { ...alternative, ...measured(judged, alternative), changed, tie };
}

/** What an alternative saves as movement, over all slices that it can touch. */
export function measured(
  judged: Judged,
  { from, to, choice, saved }: Alternative,
): Pick<Remedy, 'kinds' | 'saved' | 'enables'> {
  const [first, last] = [Math.max(0, from - CONTEXT), Math.min(judged.views.length, to + CONTEXT)];
  const before = sumOfMovements(movementOf(judged, judged.printed, first, last));
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
    if ((choice.path[at] ?? printed.path[at]) === printed.path[at]) continue;
    const last = groups.at(-1);
    if (last && at - last.to < APART) last.to = at + 1;
    else groups.push({ from: at, to: at + 1 });
  }
  return groups;
}
