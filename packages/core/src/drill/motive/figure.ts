import { buildLines } from '../../hands/build.js';
import type { Line, Slice } from '../../hands/line.js';
import { readScore } from '../../musicxml/read/score.js';
import type { XmlElement } from '../../musicxml/xml/tree.js';
import { type Fraction, subtract, toNumber } from '../../numeric/fraction.js';
import { inputOf } from '../../options/allowed.js';
import type { Input } from '../../options/options.js';
import { openAsPrinted } from '../../pipeline/open.js';
import { selectMeasures } from '../../pipeline/selection.js';
import { settingsOf } from '../../pipeline/settings.js';
import { HandlineError } from '../../score/errors.js';
import type { Hand, Part, Score } from '../../score/model.js';
import { fill, noteOf, QUARTER } from '../rhythm/values.js';
import { type Ladder, scaleLadder } from '../theory/keys.js';
import { spelled } from '../theory/pitch.js';
import { majorFifths, SPELLINGS, type Tonic } from '../theory/tonic.js';
import type { Motive, MotiveStep } from './motive.js';

/** Where a figure is taken from. */
export interface FigureSource {
  /** MusicXML text, or the bytes of a MusicXML or .mxl file. */
  readonly score: Input;
  /** Name of the file for messages. */
  readonly file?: string;
  /** Printed measure numbers, first and last inclusive. Default: the whole score. */
  readonly measures?: {
    /** The first. */
    readonly from: string;
    /** The last, which belongs to it. */
    readonly to: string;
  };
}

/** A passage of a piece: a motive, and the key and metre in which it stands. */
export interface Figure {
  readonly motive: Motive;
  readonly tonic: Tonic;
  readonly kind: 'major' | 'natural-minor';
  /** Octave of the tonic that is place 0 of either hand. */
  readonly octave: number;
  /** Such as `3/4`. */
  readonly metre: string;
  /** Quarter notes a minute, where the piece says so. */
  readonly quartersPerMinute?: number;
}

const MOST_STEPS = 400;
/** The octave whose tonic counts as place 0. */
const OCTAVE = 4;

/** @throws HandlineError where the score cannot be read, has no such measures, or no notes in them */
export function figureOf({ score: input, file, measures }: FigureSource): Figure {
  const settings = settingsOf({
    ...(file !== undefined && { file }),
    ...(measures && { measures }),
    existing: 'ignore',
  });
  const { text, root } = openAsPrinted(inputOf(input), settings.limits, settings.file);
  const read = readScore(root, text, settings);
  const { score } = read;
  const { lines } = buildLines(score, settings);
  const [first] = lines;
  if (!first) throw refused('has no piano part', file);
  const part = score.parts[first.part]!;
  const isChosen = selectMeasures(part.measures, settings);
  const from = part.measures.findIndex((_, at) => isChosen(at));
  const before = read.measureElements[first.part]!.slice(0, from + 1);
  const { tonic, kind, metre } = attributesOf(before, file);
  const ladder = scaleLadder(tonic, kind);
  const start = part.measures[from]!.start;
  const steps = (hand: Hand): readonly MotiveStep[] => {
    const line = lines.find((own) => own.hand === hand && own.part === first.part);
    return line ? stepsOf(line, part, ladder, { start, isChosen, file }) : [];
  };
  const motive: Motive = { right: steps('right'), left: steps('left') };
  if (motive.right.length + motive.left.length === 0)
    throw refused('the chosen measures hold no notes', file);
  return { motive, tonic, kind, octave: OCTAVE, metre, ...tempoAt(score, start) };
}

function refused(message: string, file: string | undefined): HandlineError {
  return new HandlineError('OPTION', message, file === undefined ? {} : { file });
}

/** The tempo in force, where there is one. */
function tempoAt({ tempo }: Score, start: Fraction): Pick<Figure, 'quartersPerMinute'> {
  const mark = tempo.findLast(({ at }) => toNumber(at) <= toNumber(start)) ?? tempo[0];
  return mark ? { quartersPerMinute: mark.quartersPerMinute } : {};
}

/** Key and metre in force at the end of these measures' beginnings. */
function attributesOf(measures: readonly XmlElement[], file: string | undefined) {
  const all = measures.flatMap((measure) => measure.all('attributes'));
  const key = all.flatMap((own) => own.all('key')).at(-1);
  const time = all.flatMap((own) => own.all('time')).at(-1);
  const fifths = Number(key?.textOf('fifths') ?? 0);
  const isMinor = key?.textOf('mode') === 'minor';
  const tonic = SPELLINGS.flat().find((own) => majorFifths(own) + (isMinor ? -3 : 0) === fifths);
  if (!tonic) throw refused(`the key of ${fifths} fifths cannot be read`, file);
  const [beats, beatType] = [time?.textOf('beats'), time?.textOf('beat-type')];
  // Without metre, as <senza-misura> is, it is set as if nothing were said.
  const metre = beats !== undefined && beatType !== undefined ? `${beats}/${beatType}` : '4/4';
  return { tonic, kind: isMinor ? ('natural-minor' as const) : ('major' as const), metre };
}

interface Window {
  readonly start: Fraction;
  readonly isChosen: (measure: number) => boolean;
  readonly file: string | undefined;
}

/** What a hand strikes in the chosen measures; grace notes are left out. */
function stepsOf(line: Line, part: Part, ladder: Ladder, window: Window): readonly MotiveStep[] {
  const slices = line.slices.filter(({ measure, grace }) => !grace && window.isChosen(measure));
  if (slices.length > MOST_STEPS) {
    throw refused(
      `the figure has more than ${MOST_STEPS} notes in one hand; choose fewer measures`,
      window.file,
    );
  }
  const steps: MotiveStep[] = [];
  let at = 0;
  slices.forEach((slice, nth) => {
    const onset = ticksBetween(window.start, slice.onset, window.file);
    if (onset > at) steps.push(...rest(onset - at, window.file));
    const next = slices[nth + 1];
    const sounding = soundingTicks(slice, part, window.file);
    const ticks = next ? Math.min(sounding, ticksBetween(slice.onset, next.onset, window.file)) : sounding;
    steps.push({ notes: slice.struck.map(({ key, diatonic }) => noteAt(key, diatonic!, ladder)), ticks });
    at = onset + ticks;
  });
  return steps;
}

function noteAt(key: number, diatonic: number, ladder: Ladder) {
  const place = diatonic - ladder.at(0, OCTAVE, 'up').diatonic;
  const natural = ladder.at(place, OCTAVE, 'up');
  return { place, alter: spelled(key, diatonic).alter - natural.alter };
}

/** The longest of the struck notes, ties included. */
function soundingTicks({ struck }: Slice, part: Part, file: string | undefined): number {
  let longest = 0;
  for (const id of struck.flatMap(({ notes }) => notes)) {
    let ticks = 0;
    for (let note: number | undefined = id; note !== undefined; ) {
      const held: number = note;
      ticks += ticksOf(part.notes[held]!.duration, file);
      note = part.notes.find(({ tiedFrom }) => tiedFrom === held)?.id;
    }
    longest = Math.max(longest, ticks);
  }
  return longest;
}

function rest(ticks: number, file: string | undefined): readonly MotiveStep[] {
  const values = noteOf(ticks) ? [noteOf(ticks)!] : fill(ticks);
  if (!values) throw unwritable(file);
  return values.map((value) => ({ notes: [], ticks: value.ticks }));
}

function ticksBetween(from: Fraction, to: Fraction, file: string | undefined): number {
  return ticksOf(subtract(to, from), file);
}

function ticksOf(quarters: Fraction, file: string | undefined): number {
  const ticks = toNumber(quarters) * QUARTER;
  if (!Number.isInteger(ticks)) throw unwritable(file);
  return ticks;
}

function unwritable(file: string | undefined): HandlineError {
  return refused('the chosen measures hold note values that a sheet cannot write, such as quintuplets', file);
}
