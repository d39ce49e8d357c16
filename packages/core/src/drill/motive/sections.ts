import type { Hand } from '../../score/model.js';
import { QUARTER } from '../rhythm/values.js';
import type { DrillSettings } from '../settings.js';
import type { Exercise, Section, Step } from '../sheet.js';
import { allTonics, type Ladder, scaleLadder } from '../theory/keys.js';
import { keyOf } from '../theory/pitch.js';
import type { ScaleKind } from '../theory/scales.js';
import { pitchClassOf, type Tonic } from '../theory/tonic.js';
import { filled, keyTitle } from '../words/languages.js';
import type { Figure } from './figure.js';
import { realized } from './motive.js';
import { type Placed, placedFigure, type Sequence } from './placed.js';

/** The order of fifths from C, as pitch classes. */
const FIFTHS = Array.from({ length: 12 }, (_, nth) => (7 * nth) % 12);
const TWELVE = 12;
/** Lengths that come as long and short pairs: from quarters to sixteenths. Others, such as triplets, are taken as eighths. */
const PAIRED: readonly number[] = [QUARTER, QUARTER / 2, QUARTER / 4];

/** The motive on one degree after the other, in every key that is asked for. */
export function sequenceSections(
  placed: Placed,
  kind: ScaleKind,
  { sequence, steps }: { readonly sequence: Sequence; readonly steps: number },
  settings: DrillSettings,
): readonly Section[] {
  const tonics = settings.tonics === 'all' ? FIFTHS.map((at) => allTonics(kind)[at]!) : settings.tonics;
  return tonics.map((tonic) => {
    const ladder = scaleLadder(tonic, kind);
    const rows = Array.from({ length: steps }, (_, nth) =>
      sequence === 'diatonic'
        ? realized(placed.motive, ladder, placed.octaves(ladder), nth)
        : chromaticStep(placed, ladder, kind, nth),
    );
    const exercise: Exercise = {
      steps: { right: rows.flatMap(({ right }) => right), left: rows.flatMap(({ left }) => left) },
    };
    return sectionOf(ladder, kind, played([exercise], settings), settings);
  });
}

/** So many semitones higher: the motive in that key, in its own spelling. */
function chromaticStep({ motive, octaves }: Placed, ladder: Ladder, kind: ScaleKind, semitones: number) {
  const pitchClass = pitchClassOf(ladder.tonic) + semitones;
  const tonic = semitones % TWELVE === 0 ? ladder.tonic : allTonics(kind)[pitchClass % TWELVE]!;
  const higher = scaleLadder(tonic, kind);
  const home = octaves(ladder);
  const near = (hand: Hand) => {
    const target = keyOf(ladder.at(0, home[hand], 'up')) + semitones;
    return home[hand] + Math.round((target - keyOf(higher.at(0, home[hand], 'up'))) / TWELVE);
  };
  return realized(motive, higher, { right: near('right'), left: near('left') });
}

/** The figure of a piece as it stands, in other rhythms, beat by beat, and in other keys. */
export function studySections(figure: Figure, settings: DrillSettings): readonly Section[] {
  const { words } = settings;
  const placed = placedFigure(figure);
  const home = scaleLadder(figure.tonic, figure.kind);
  const own: Exercise = { steps: realized(figure.motive, home, placed.octaves(home)) };
  const named = (heading: string, all: readonly Exercise[]) => ({
    ...sectionOf(home, figure.kind, played(all, settings), settings),
    heading,
  });
  const keys = settings.tonics === 'all' ? FIFTHS.map((at) => allTonics(figure.kind)[at]!) : settings.tonics;
  const others = keys.filter((tonic) => pitchClassOf(tonic) !== pitchClassOf(figure.tonic));
  return [
    named(words.study.figure, [own]),
    named(
      words.study.rhythms,
      rhythmsFor(figure, settings).flatMap((ticks) => inRhythm(own, ticks)),
    ),
    named(words.study.fragments, beatByBeat(own, settings.metre.beat)),
    ...others.map((tonic) => transposedSection(placed, tonic, figure, settings)),
  ].filter((section) => section.exercises.length > 0);
}

function transposedSection(
  placed: Placed,
  tonic: Tonic,
  { kind, motive }: Figure,
  settings: DrillSettings,
): Section {
  const ladder = scaleLadder(tonic, kind);
  const steps = realized(motive, ladder, placed.octaves(ladder));
  return sectionOf(ladder, kind, played([{ steps }], settings), settings);
}

/** Those that are asked for; else long and short, short and long, of the figure's shortest notes. */
function rhythmsFor(
  { motive }: Figure,
  { ownRhythms, rhythms }: DrillSettings,
): readonly (readonly number[])[] {
  if (ownRhythms) return rhythms.map(({ values }) => values.map(({ ticks }) => ticks));
  const played = [...motive.right, ...motive.left].filter(({ notes }) => notes.length > 0);
  const shortest = Math.min(...played.map(({ ticks }) => ticks ?? QUARTER));
  const value = PAIRED.includes(shortest) ? shortest : QUARTER / 2;
  return [
    [1.5 * value, 0.5 * value],
    [0.5 * value, 1.5 * value],
  ];
}

/** Each hand alone, its notes in turn with these lengths; rests are left out. */
function inRhythm({ steps }: Exercise, ticks: readonly number[]): readonly Exercise[] {
  const inTurn = (own: readonly Step[]) =>
    own
      .filter(({ pitches }) => pitches.length > 0)
      .map((step, nth) => ({ ...step, ticks: ticks[nth % ticks.length]! }));
  return [
    { steps: { right: inTurn(steps.right), left: [] } },
    { steps: { right: [], left: inTurn(steps.left) } },
  ];
}

/** What lies from one beat to the first note of the next, beat after beat; the same once only. */
function beatByBeat({ steps }: Exercise, beat: number): readonly Exercise[] {
  const [right, left] = [timed(steps.right), timed(steps.left)];
  const end = Math.max(0, ...[...right, ...left].map(({ at }) => at));
  const windows: Exercise[] = [];
  const known = new Set<string>();
  for (let from = 0; from < end; from += beat) {
    const cut = (own: ReturnType<typeof timed>) => piece(own, from, from + beat);
    const exercise = { steps: { right: cut(right), left: cut(left) } };
    const isFigure = Math.max(noteCount(exercise.steps.right), noteCount(exercise.steps.left)) > 1;
    const key = JSON.stringify(exercise);
    if (isFigure && !known.has(key)) windows.push(exercise);
    known.add(key);
  }
  return windows;
}

function timed(steps: readonly Step[]): readonly { readonly step: Step; readonly at: number }[] {
  let at = 0;
  return steps.map((step) => {
    const own = { step, at };
    at += step.ticks ?? QUARTER;
    return own;
  });
}

/** From a beat to the next one's note, included; without notes nothing. */
function piece(own: ReturnType<typeof timed>, from: number, to: number): readonly Step[] {
  const inside = own.filter(({ at }) => at >= from && at <= to);
  if (noteCount(inside.map(({ step }) => step)) === 0) return [];
  const first = inside[0]!.at - from;
  const lead: readonly Step[] = first > 0 ? [{ pitches: [], ticks: first }] : [];
  const cut = ({ step, at }: (typeof inside)[number]): Step => {
    const most = at === to ? to - from : to - at;
    return { ...step, ticks: Math.min(step.ticks ?? QUARTER, most) };
  };
  return [...lead, ...inside.map(cut)];
}

function noteCount(steps: readonly Step[]): number {
  return steps.filter(({ pitches }) => pitches.length > 0).length;
}

function sectionOf(
  ladder: Ladder,
  kind: ScaleKind,
  exercises: readonly Exercise[],
  { words, language }: DrillSettings,
): Section {
  const key = keyTitle(ladder.tonic, kind, language);
  const heading = filled(words.patterns.motive, { key });
  return { heading, fifths: ladder.fifths, ...(ladder.mode && { mode: ladder.mode }), exercises };
}

/** What is left of exercises where a hand has no staff. */
function played(exercises: readonly Exercise[], { hands }: DrillSettings): readonly Exercise[] {
  const own = (steps: readonly Step[], hand: Hand) => (hands.includes(hand) ? steps : []);
  return exercises
    .map((one) => ({
      ...one,
      steps: { right: own(one.steps.right, 'right'), left: own(one.steps.left, 'left') },
    }))
    .filter(({ steps }) => noteCount(steps.right) + noteCount(steps.left) > 0);
}
