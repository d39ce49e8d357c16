import type { HandModel } from '../anatomy/hand.js';
import { settingsOf } from '../pipeline/settings.js';
import { HandlineError } from '../score/errors.js';
import type { Hand } from '../score/model.js';
import { checkDrill } from './check.js';
import type { DrillOptions, DrillPattern } from './options.js';
import type { FragmentChoice } from './patterns/fragments.js';
import type { LineChoice } from './patterns/scales.js';
import type { RhythmChoice } from './rhythm/bars.js';
import { type Metre, parseMetre } from './rhythm/metre.js';
import { noteValue, QUARTER } from './rhythm/values.js';
import type { ChordKind } from './theory/chords.js';
import type { ScaleKind } from './theory/scales.js';
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
  readonly metre: Metre;
  readonly rhythms: readonly RhythmChoice[];
  /** Beats a minute. */
  readonly tempo: number;
  /** Staves of the sheet, top first. */
  readonly hands: readonly Hand[];
  readonly model: Readonly<Record<Hand, HandModel>>;
  readonly digits: boolean;
  readonly language: NonNullable<DrillOptions['language']>;
  readonly words: SheetWords;
}

/** Patterns of few notes are written larger. */
const IN_EIGHTHS: ReadonlySet<DrillPattern> = new Set(['five-finger', 'fragments']);
const FRAGMENTS: FragmentChoice = { from: 5, to: 8 };

/** @throws HandlineError OPTION */
export function drillSettings(options: DrillOptions): DrillSettings {
  checkDrill(options);
  const { awkward, accents } = options;
  const patterns = patternsOf(options);
  const hasFragments = patterns.includes('fragments');
  if (hasFragments && options.digits === 'sparse') {
    throw new HandlineError('OPTION', 'digits: fragments print every digit; give all or none');
  }
  const { model, language } = settingsOf({
    ...(options.span !== undefined && { span: options.span }),
    ...(options.language !== undefined && { language: options.language }),
  });
  const metre = parseMetre(options.metre ?? '4/4');
  const fallback = [[patterns.every((own) => IN_EIGHTHS.has(own)) ? 'eighth' : 'sixteenth']];
  const hands: readonly Hand[] =
    options.hands === undefined || options.hands === 'both' ? ['right', 'left'] : [options.hands];
  return {
    ...(options.title !== undefined && { title: options.title.trim() }),
    tonics: options.keys === 'all' ? 'all' : (options.keys ?? ['C']).map(parseTonic),
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
    tempo: options.tempo ?? 80,
    hands,
    model,
    digits: options.digits !== 'none',
    language,
    words: SHEET_WORDS[language],
  };
}

function patternsOf({ patterns, fragments, awkward }: DrillOptions): readonly DrillPattern[] {
  const own = patterns ?? (fragments || awkward !== undefined ? ['fragments'] : ['scales']);
  const asks = fragments ? 'fragments' : awkward === undefined ? undefined : 'awkward';
  if (asks && !own.includes('fragments')) {
    throw new HandlineError('OPTION', `${asks}: the patterns do not include fragments; add them`);
  }
  if (awkward !== undefined && own.length > 1) {
    throw new HandlineError('OPTION', 'awkward: picks among fragments only; leave the other patterns out');
  }
  return own;
}

/** Seconds from one note to the next in the first value of the first rhythm. */
export function secondsOf({ rhythms, metre, tempo }: DrillSettings): number {
  const quartersPerMinute = (tempo * metre.beat) / QUARTER;
  return (rhythms[0]!.values[0]!.ticks / QUARTER) * (60 / quartersPerMinute);
}
