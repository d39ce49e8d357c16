import type { DrillOptions } from '@handline/core';
import type { Argv } from 'yargs';
import { usageError } from '../exit.js';
import { type Arguments, chosen, defined, flag, parsed, text, valued } from './arguments.js';
import { addSheetMarkingOptions, sheetMarking } from './mark-options.js';
import { addReportOptions } from './output-options.js';
import { parseCount, parseList } from './values.js';

const OUTPUT = 'Where the sheet goes:';
const WHAT = 'What is practised:';
const HANDS = 'How the hands go:';
const RHYTHM = 'Rhythm:';

/** Of the scale that has most, the chromatic one. */
const MOST_DEGREES = 12;

/** A choice of core's, by its names; core says what they may be. */
type Choice<Name extends keyof DrillOptions> = NonNullable<DrillOptions[Name]>;

export function addDrillOptions(parser: Argv): Argv {
  const own = parser
    .option('output', { alias: 'o', ...valued(OUTPUT, 'Write the sheet to this file; - is standard output') })
    .option(
      'page',
      valued(OUTPUT, 'Write a page to print as well, with contents, pictures and legend: FILE.html'),
    )
    .option('force', { group: OUTPUT, type: 'boolean', describe: 'Overwrite an existing file' })
    .option('title', valued(OUTPUT, 'Title at the head of the sheet [what it holds]'))
    .option('keys', valued(WHAT, 'Keynotes such as C,F#,Bb, or all twelve in the order of fifths: all [C]'))
    .option(
      'patterns',
      valued(WHAT, 'From scales,arpeggios,broken-chords,cadences,five-finger,fragments [scales]'),
    )
    .option('kinds', valued(WHAT, 'Kinds of scales, such as major,harmonic-minor,dorian,chromatic [major]'))
    .option(
      'chords',
      valued(WHAT, 'Kinds of chords for arpeggios and broken chords, such as minor,dominant-seventh [major]'),
    )
    .option('inversions', {
      group: WHAT,
      type: 'boolean',
      describe: 'Arpeggios from every note of the chord, cadences in every position',
    })
    .option('octaves', valued(WHAT, 'Octaves of scales and chords, 1 to 4 [2]'))
    .option(
      'fragments',
      valued(WHAT, 'Fragments of scales of so many notes, such as 4-9, each with its easiest fingering'),
    )
    .option('degrees', valued(WHAT, 'Degrees on which fragments start, such as 1,5 [every one]'))
    .option('turns', valued(WHAT, 'Notes at which fragments turn, such as 4,5 [every one]'))
    .option(
      'awkward',
      valued(WHAT, 'Only so many fragments, those whose scale fingering costs most over their easiest'),
    )
    .option(
      'motive',
      valued(WHAT, 'A motive in sequence: a score, or a .json file of degrees; see the README'),
    )
    .option('sequence', {
      ...valued(WHAT, 'Move the motive along the scale or by semitones [diatonic]'),
      choices: ['diatonic', 'chromatic'] as const,
    })
    .option('steps', valued(WHAT, 'How often the motive is played [to its octave]'))
    .option(
      'from',
      valued(WHAT, 'Study of a passage of this score: as it is, in other rhythms, by beats, in other keys'),
    )
    .option('measures', valued(WHAT, 'Printed measures of --from or --motive, such as 12-14 [all]'))
    .option('motion', {
      ...valued(HANDS, 'Hands together, in contrary motion, or one after the other [together]'),
      choices: ['together', 'contrary', 'separate'] as const,
    })
    .option('apart', {
      ...valued(HANDS, 'Interval between hands that play together [octave]'),
      choices: ['octave', 'third', 'sixth', 'tenth'] as const,
    })
    .option('double', {
      ...valued(HANDS, 'What one hand takes at once [single notes]'),
      choices: ['thirds', 'sixths', 'octaves'] as const,
    })
    .option('start', valued(HANDS, "Octave in which the right hand starts, middle C's being 4 [by range]"))
    .option('metre', valued(RHYTHM, 'Time signature, such as 4/4 or 6/8 [4/4]'))
    .option(
      'rhythm',
      valued(
        RHYTHM,
        'Note values in turn, such as sixteenth or dotted-eighth,sixteenth; several rhythms as A/B [sixteenth; fragments and five-finger patterns eighth]',
      ),
    )
    .option('accents', valued(RHYTHM, 'An accent on the first of so many notes [none]'))
    .option('tempo', valued(RHYTHM, 'Beats of the metre a minute [80]'));
  return addReportOptions(addSheetMarkingOptions(own));
}

/** The options of `drill` as the command line gives them; what is left out is core's default. */
export function drillOptions(args: Arguments): DrillOptions {
  const list = <T extends string>(name: string) =>
    parsed(args, name, (value) => parseList(name, value) as T[]);
  const count = (name: string) => parsed(args, name, (value) => parseCount(name, value, 0));
  return {
    ...sheetMarking(args),
    ...defined({
      title: text(args, 'title'),
      keys: parsed(args, 'keys', (value) => (value === 'all' ? ('all' as const) : parseList('keys', value))),
      patterns: list<Choice<'patterns'>[number]>('patterns'),
      kinds: list<Choice<'kinds'>[number]>('kinds'),
      chords: list<Choice<'chords'>[number]>('chords'),
      inversions: flag(args, 'inversions') ? true : undefined,
      octaves: count('octaves'),
      fragments: fragmentsOf(args),
      awkward: count('awkward'),
      sequence: chosen<Choice<'sequence'>>(args, 'sequence'),
      steps: count('steps'),
      motion: chosen<Choice<'motion'>>(args, 'motion'),
      apart: chosen<Choice<'apart'>>(args, 'apart'),
      double: chosen<Choice<'double'>>(args, 'double'),
      start: count('start'),
      metre: text(args, 'metre'),
      rhythms: parsed(args, 'rhythm', (value) => value.split('/').map((one) => parseList('rhythm', one))),
      accents: count('accents'),
      tempo: count('tempo'),
    }),
  };
}

function fragmentsOf(args: Arguments): DrillOptions['fragments'] {
  const numbers = (name: string) =>
    parsed(args, name, (value) => parseList(name, value).map((one) => parseCount(name, one, 1)));
  const degrees = numbers('degrees');
  const high = degrees?.find((degree) => degree > MOST_DEGREES);
  if (high !== undefined)
    throw usageError(
      `--degrees ${text(args, 'degrees')}: ${high} is not allowed; give degrees from 1 to ${MOST_DEGREES}`,
    );
  const [starts, turns] = [degrees?.map((degree) => degree - 1), numbers('turns')];
  const lengths = text(args, 'fragments');
  if (lengths === undefined) {
    const alone = starts ? 'degrees' : turns ? 'turns' : undefined;
    if (alone)
      throw usageError(`--${alone} speaks of fragments; give their lengths as well, such as --fragments 4-9`);
    return undefined;
  }
  const match = /^(\d{1,2})(?:-(\d{1,2}))?$/.exec(lengths);
  if (!match) throw usageError(`--fragments ${lengths}: give lengths such as 4-9 or 5`);
  const [from, to] = [Number(match[1]), Number(match[2] ?? match[1])];
  return { from, to, ...defined({ starts, turns }) };
}
