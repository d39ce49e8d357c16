import type { Bar, Written } from '../rhythm/bars.js';
import { groupEnd, type Metre } from '../rhythm/metre.js';
import type { Pitch } from '../theory/pitch.js';

export type ClefSign = 'G' | 'F';

/** How a stretch is written. */
export interface StaffView {
  readonly clef: ClefSign;
  /** Octaves by which the notes are written lower than they sound: 1 under 8va, -1 over 8vb. */
  readonly octaves: -1 | 0 | 1;
}

/** The view from a time within a measure on. */
export interface ViewFrom extends StaffView {
  readonly measure: number;
  /** Ticks from the measure's start. */
  readonly at: number;
}

const VIEWS: readonly StaffView[] = [
  { clef: 'G', octaves: 0 },
  { clef: 'F', octaves: 0 },
  { clef: 'G', octaves: 1 },
  { clef: 'F', octaves: -1 },
];
/** Places of the lowest and the highest line: E4 to F5 with a G clef, G2 to A3 with an F clef. */
const LINES: Readonly<Record<ClefSign, readonly [number, number]>> = { G: [30, 38], F: [18, 26] };
/** What is weighed, in squared ledger lines: tuned by eye on printed pages, so that a copyist's habits come out. */
export const PRICES = {
  /** Ledger lines that are read without effort; those beyond cost their square. */
  easyLines: 2,
  changeClef: 7,
  changeOctave: 7,
  /** What an exercise pays that does not begin with the clef of its staff. */
  otherStart: 5,
  /** A note under an octave line, and one in a clef foreign to the staff. */
  underOctave: 1,
  foreignClef: 0.6,
} as const;

/**
 * Clefs and octave lines of a staff: of all ways to write the notes that with the least sum of what its ledger lines and
 * its changes cost, exactly (one path through the groups of beats). Views change only where a group of beats begins.
 *
 * @param home the clef that the staff has at its beginning and comes back to where nothing speaks against it
 */
export function viewsOf(bars: readonly Bar[], metre: Metre, home: ClefSign): readonly ViewFrom[] {
  const windows = bars.flatMap((bar, measure) => windowsOf(bar, measure, metre));
  if (windows.length === 0) return [];
  const costs: number[][] = [];
  const from: number[][] = [];
  windows.forEach(({ notes }, nth) => {
    const own = VIEWS.map((view) => notes.reduce((sum, note) => sum + costOf(note, view, home), 0));
    const before = costs[nth - 1] ?? VIEWS.map((view) => (view.clef === home ? 0 : PRICES.otherStart));
    from.push(
      VIEWS.map((view) =>
        VIEWS.reduce(
          (best, earlier, at) =>
            before[at]! + change(earlier, view) < before[best]! + change(VIEWS[best]!, view) ? at : best,
          0,
        ),
      ),
    );
    costs.push(
      VIEWS.map((view, at) => {
        const earlier = from[nth]![at]!;
        return before[earlier]! + change(VIEWS[earlier]!, view) + own[at]!;
      }),
    );
  });
  return changes(windows, backwards(costs, from));
}

interface Window {
  readonly measure: number;
  readonly at: number;
  readonly notes: readonly Pitch[];
}

/** Groups of beats that hold notes; one that begins within a note begins after it. */
function windowsOf(bar: Bar, measure: number, metre: Metre): readonly Window[] {
  const byEnd = new Map<number, Written[]>();
  for (const written of bar) {
    if (!written.step) continue;
    const end = groupEnd(metre, written.at);
    byEnd.set(end, [...(byEnd.get(end) ?? []), written]);
  }
  return [...byEnd.values()].map((own) => ({
    measure,
    at: own[0]!.at,
    notes: own.flatMap(({ step }) => step!.pitches),
  }));
}

function costOf({ diatonic }: Pitch, { clef, octaves }: StaffView, home: ClefSign): number {
  const place = diatonic - 7 * octaves;
  const [low, high] = LINES[clef];
  const ledger = Math.max(0, Math.floor((low - place) / 2), Math.floor((place - high) / 2));
  const effort = Math.max(0, ledger - PRICES.easyLines) ** 2;
  return effort + (octaves === 0 ? 0 : PRICES.underOctave) + (clef === home ? 0 : PRICES.foreignClef);
}

function change(before: StaffView, after: StaffView): number {
  return (
    (before.clef === after.clef ? 0 : PRICES.changeClef) +
    (before.octaves === after.octaves ? 0 : PRICES.changeOctave)
  );
}

/** The cheapest view of every window. */
function backwards(
  costs: readonly (readonly number[])[],
  from: readonly (readonly number[])[],
): readonly number[] {
  let at = costs.at(-1)!.reduce((best, cost, own, all) => (cost < all[best]! ? own : best), 0);
  const path: number[] = [];
  for (let nth = costs.length - 1; nth >= 0; nth--) {
    path.push(at);
    at = from[nth]![at]!;
  }
  return path.reverse();
}

function changes(windows: readonly Window[], path: readonly number[]): readonly ViewFrom[] {
  const found: ViewFrom[] = [];
  windows.forEach(({ measure, at }, nth) => {
    if (nth > 0 && path[nth] === path[nth - 1]) return;
    found.push({ ...VIEWS[path[nth]!]!, measure, at });
  });
  return found;
}
