import type { Hand } from '../../score/model.js';
import type { Bar, RhythmChoice } from '../rhythm/bars.js';
import { barsOf } from '../rhythm/bars.js';
import type { Metre } from '../rhythm/metre.js';
import type { Exercise, Section } from '../sheet.js';
import type { Mode } from '../theory/scales.js';
import { type Break, breaksOf } from './breaks.js';
import { type ClefSign, type StaffView, type ViewFrom, viewsOf } from './clefs.js';

/** The clef that a hand's staff has at its beginning. */
export const HOME_CLEF: Readonly<Record<Hand, ClefSign>> = { right: 'G', left: 'F' };

/** A staff within one measure. */
export interface StaffMeasure {
  readonly hand: Hand;
  readonly bar: Bar;
  /** Changes of clef and octave line, in order of time. */
  readonly changes: readonly ViewFrom[];
  /** The octave line in force at the measure's end goes no further. */
  readonly endsOctave: boolean;
  /** The clef with which the next measure begins, where that is another one: it stands before the barline. */
  readonly nextClef?: ClefSign;
}

export interface SheetMeasure {
  readonly staves: readonly StaffMeasure[];
  /** A new signature, where there is one. */
  readonly key?: { readonly fifths: number; readonly mode?: Mode };
  readonly fifths: number;
  readonly heading?: string;
  readonly remark?: string;
  readonly break: Break;
  /** Right barline where it is no plain one. */
  readonly barline?: 'double' | 'final';
}

/** Columns of notes beside which the text over an exercise finds room. */
const REMARK_WIDTH = 11;

interface Raw extends Omit<SheetMeasure, 'break'> {
  readonly section: number;
}

/** Lays a sheet out in measures. */
export function engrave(
  sections: readonly Section[],
  hands: readonly Hand[],
  rhythms: readonly RhythmChoice[],
): readonly SheetMeasure[] {
  const current = new Map<Hand, StaffView>(
    hands.map((hand) => [hand, { clef: HOME_CLEF[hand], octaves: 0 }]),
  );
  const raw: Raw[] = [];
  let signature: string | undefined;
  sections.forEach(({ heading, fifths, mode, exercises }, section) => {
    const first = raw.length;
    for (const exercise of exercises) {
      for (const rhythm of rhythms) {
        for (const own of measuresOf(exercise, hands, rhythm, current)) raw.push({ ...own, fifths, section });
      }
    }
    if (raw.length === first) return;
    const key = `${fifths} ${mode}`;
    raw[first] = {
      ...raw[first]!,
      heading,
      ...(key !== signature && { key: { fifths, ...(mode && { mode }) } }),
    };
    signature = key;
    raw[raw.length - 1] = { ...raw.at(-1)!, barline: 'double' };
  });
  if (raw.length > 0) raw[raw.length - 1] = { ...raw.at(-1)!, barline: 'final' };
  const breaks = breaksOf(
    raw.map(({ section, staves, heading, remark }) => ({
      section,
      width: Math.max(widthOf(staves), remark === undefined ? 0 : REMARK_WIDTH),
      texts: (heading === undefined ? 0 : 1) + (remark === undefined ? 0 : remark.split('\n').length),
    })),
    hands.length,
  );
  return raw.map(({ section: _, ...own }, nth) => ({
    ...own,
    staves: own.staves.map((staff, at) => withNextClef(staff, raw[nth + 1]?.staves[at])),
    break: breaks[nth]!,
  }));
}

/** Columns of notes that a measure needs room for. */
function widthOf(staves: readonly StaffMeasure[]): number {
  return Math.max(...staves.map(({ bar, changes }) => bar.length + changes.length));
}

function withNextClef(staff: StaffMeasure, next: StaffMeasure | undefined): StaffMeasure {
  const nextClef = next?.changes.find(({ at }) => at === 0)?.clef;
  return nextClef ? { ...staff, nextClef } : staff;
}

function measuresOf(
  { steps, remark }: Exercise,
  hands: readonly Hand[],
  rhythm: RhythmChoice,
  current: Map<Hand, StaffView>,
): readonly Omit<Raw, 'fifths' | 'section'>[] {
  const staves = hands.map((hand) => staffOf(hand, barsOf(steps[hand], rhythm), rhythm.metre, current));
  const count = Math.max(0, ...staves.map((own) => own.length));
  return Array.from({ length: count }, (_, nth) => ({
    ...(nth === 0 && remark !== undefined && { remark }),
    ...(nth === count - 1 && { barline: 'double' as const }),
    staves: hands.map((hand, at) => staves[at]![nth] ?? { hand, bar: [], changes: [], endsOctave: false }),
  }));
}

/** The measures of one staff; `current` is how the staff is written so far. */
function staffOf(
  hand: Hand,
  bars: readonly Bar[],
  metre: Metre,
  current: Map<Hand, StaffView>,
): readonly StaffMeasure[] {
  const views = viewsOf(bars, metre, HOME_CLEF[hand]);
  return bars.map((bar, measure) => {
    const changes = views.filter(
      (view) =>
        view.measure === measure && (isOther(view, current.get(hand)!) ? !!current.set(hand, view) : false),
    );
    const isLast = measure === bars.length - 1;
    const before = current.get(hand)!;
    const endsOctave = isLast && before.octaves !== 0;
    if (endsOctave) current.set(hand, { clef: before.clef, octaves: 0 });
    return { hand, bar, changes, endsOctave };
  });
}

function isOther(one: StaffView, other: StaffView): boolean {
  return one.clef !== other.clef || one.octaves !== other.octaves;
}
