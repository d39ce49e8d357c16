import type { HandModel } from '../anatomy/hand.js';
import { settingsOf } from '../pipeline/settings.js';
import { optionError } from '../score/errors.js';
import type { Hand } from '../score/model.js';
import { checkDrill, TEMPOS } from './check.js';
import { type DegreeMotive, motiveOfDegrees } from './motive/degrees.js';
import { type Figure, figureOf } from './motive/figure.js';
import type { Motive } from './motive/motive.js';
import { type Placed, placedDegrees, placedFigure, type Sequence } from './motive/placed.js';
import type { DrillOptions, DrillPattern } from './options.js';
import type { FragmentChoice } from './patterns/fragments.js';
import type { LineChoice } from './patterns/scales.js';
import type { RhythmChoice } from './rhythm/bars.js';
import { type Metre, parseMetre } from './rhythm/metre.js';
import { noteValue, QUARTER } from './rhythm/values.js';
import type { ChordKind } from './theory/chords.js';
import { SCALES, type ScaleKind } from './theory/scales.js';
import { parseTonic, type Tonic } from './theory/tonic.js';
import { SHEET_WORDS } from './words/languages.js';
import type { SheetWords } from './words/words.js';

/** The options of a sheet with every default filled in. */
export interface DrillSettings {
  readonly title?: string;
  readonly tonics: 'all' | readonly Tonic[];
  readonly patterns: readonly DrillPattern[];
  readonly kinds: readonly ScaleKind[];
  readonly chords: readonly ChordKind[];
  readonly inversions: boolean;
  readonly line: LineChoice;
  readonly fragments: FragmentChoice;
  readonly awkward?: number;
  /** What stands in place of the patterns. */
  readonly own?: OwnPattern;
  readonly metre: Metre;
  readonly rhythms: readonly RhythmChoice[];
  /** True where the rhythms were asked for. */
  readonly ownRhythms: boolean;
  /** Beats a minute. */
  readonly tempo: number;
  /** Staves of the sheet, top first. */
  readonly hands: readonly Hand[];
  readonly model: Readonly<Record<Hand, HandModel>>;
  readonly digits: boolean;
  readonly language: NonNullable<DrillOptions['language']>;
  readonly words: SheetWords;
}

/** A motive in sequence, or the study of a passage. */
export type OwnPattern =
  | {
      readonly use: 'sequence';
      readonly placed: Placed;
      readonly kind: ScaleKind;
      readonly sequence: Sequence;
      readonly steps: number;
    }
  | { readonly use: 'study'; readonly figure: Figure };

/** Patterns of few notes are written larger. */
const IN_EIGHTHS: ReadonlySet<DrillPattern> = new Set(['five-finger', 'fragments']);
const FRAGMENTS: FragmentChoice = { from: 5, to: 8 };
const USUAL_TEMPO = 80;
const SEVEN = 7;
const TWELVE = 12;

/** @throws HandlineError OPTION */
export function drillSettings(options: DrillOptions): DrillSettings {
  checkDrill(options);
  const { awkward, accents } = options;
  const patterns = patternsOf(options);
  const hasFragments = patterns.includes('fragments');
  if (hasFragments && options.digits === 'sparse') {
    throw optionError('digits', 'fragments print every digit; give all or none');
  }
  const { model, language } = settingsOf({
    ...(options.span !== undefined && { span: options.span }),
    ...(options.language !== undefined && { language: options.language }),
  });
  const figure = figureIn(options);
  const own = ownPattern(options, figure);
  const metre = parseMetre(options.metre ?? figure?.metre ?? '4/4');
  const isLarge = own !== undefined || patterns.every((pattern) => IN_EIGHTHS.has(pattern));
  const fallback = [[isLarge ? 'eighth' : 'sixteenth']];
  const hands: readonly Hand[] =
    options.hands === undefined || options.hands === 'both' ? ['right', 'left'] : [options.hands];
  return {
    ...(options.title !== undefined && { title: options.title.trim() }),
    tonics: tonicsOf(options, figure),
    ...(own && { own }),
    patterns,
    kinds: options.kinds ?? ['major'],
    chords: options.chords ?? ['major'],
    inversions: options.inversions ?? false,
    line: {
      octaves: options.octaves ?? 2,
      motion: hands.length === 1 ? 'together' : (options.motion ?? 'together'),
      apart: options.apart ?? 'octave',
      ...(options.double && { double: options.double }),
      ...(options.start !== undefined && { start: options.start }),
    },
    fragments: options.fragments ?? FRAGMENTS,
    ...(awkward !== undefined && { awkward }),
    metre,
    rhythms: (options.rhythms ?? fallback).map((names) => ({
      metre,
      values: names.map(noteValue),
      ...(accents !== undefined && { accents }),
    })),
    ownRhythms: options.rhythms !== undefined,
    tempo: options.tempo ?? tempoOf(figure, metre),
    hands,
    model,
    digits: options.digits !== 'none',
    language,
    words: SHEET_WORDS[language],
  };
}

function figureIn({ motive, study }: DrillOptions): Figure | undefined {
  if (study) return figureOf(study);
  return motive && 'score' in motive ? figureOf(motive) : undefined;
}

function ownPattern(options: DrillOptions, figure: Figure | undefined): OwnPattern | undefined {
  const { motive, study, start, kinds } = options;
  if (motive && study) throw optionError('study', 'a sheet has a motive or a study, not both');
  const asked = motive ? 'motive' : study ? 'study' : undefined;
  if (!asked) return refuseWithout(options);
  for (const name of ['patterns', 'fragments', 'awkward'] as const) {
    if (options[name] !== undefined) {
      throw optionError(name, `does not go with a ${asked}; make two sheets`);
    }
  }
  if (study) return { use: 'study', figure: figure! };
  const kind = kinds?.[0] ?? figure?.kind ?? 'major';
  const sequence = options.sequence ?? 'diatonic';
  if (SCALES[kind].up.length !== SEVEN || (kinds && kinds.length > 1)) {
    throw optionError('kinds', 'a motive goes through one kind of scale, of seven notes');
  }
  const steps = options.steps ?? (sequence === 'diatonic' ? SEVEN : TWELVE) + 1;
  const inRhythm = (given: Motive) => (options.rhythms ? withoutRhythm(given) : given);
  const placed = figure
    ? placedFigure({ ...figure, motive: inRhythm(figure.motive) })
    : placedDegrees(
        inRhythm(motiveOfDegrees(motive as DegreeMotive)),
        sequence === 'diatonic' ? steps : SEVEN,
        start,
      );
  return { use: 'sequence', placed, kind, sequence, steps };
}

/** The rhythm of the sheet takes the place of the motive's own. */
function withoutRhythm({ right, left }: Motive): Motive {
  const bare = (steps: Motive['right']) => steps.map(({ notes }) => ({ notes }));
  return { right: bare(right), left: bare(left) };
}

function refuseWithout(options: DrillOptions): undefined {
  for (const name of ['sequence', 'steps'] as const) {
    if (options[name] !== undefined) throw optionError(name, 'speaks of a motive; give one');
  }
}

function tonicsOf({ keys, study }: DrillOptions, figure: Figure | undefined): DrillSettings['tonics'] {
  if (keys === 'all' || (keys === undefined && study)) return 'all';
  if (keys === undefined && figure) return [figure.tonic];
  return (keys ?? ['C']).map(parseTonic);
}

/** Beats a minute, within what a sheet takes. */
function tempoOf(figure: Figure | undefined, { beat }: Metre): number {
  if (figure?.quartersPerMinute === undefined) return USUAL_TEMPO;
  const beats = Math.round((figure.quartersPerMinute * QUARTER) / beat);
  return Math.min(Math.max(beats, TEMPOS[0]), TEMPOS[1]);
}

function patternsOf({ patterns, fragments, awkward }: DrillOptions): readonly DrillPattern[] {
  const own = patterns ?? (fragments || awkward !== undefined ? ['fragments'] : ['scales']);
  const asks = fragments ? 'fragments' : awkward === undefined ? undefined : 'awkward';
  if (asks && !own.includes('fragments')) {
    throw optionError(asks, 'the patterns do not include fragments; add them');
  }
  if (awkward !== undefined && own.length > 1) {
    throw optionError('awkward', 'picks among fragments only; leave the other patterns out');
  }
  return own;
}

/** Seconds from one note to the next in the first value of the first rhythm. */
export function secondsOf({ rhythms, metre, tempo }: DrillSettings): number {
  const quartersPerMinute = (tempo * metre.beat) / QUARTER;
  return (rhythms[0]!.values[0]!.ticks / QUARTER) * (60 / quartersPerMinute);
}
