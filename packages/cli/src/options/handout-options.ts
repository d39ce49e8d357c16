import type { Argv } from 'yargs';
import { usageError } from '../exit.js';
import type { HandoutOptions } from '../pages/handout/handout.js';
import type { ViewPlace } from '../pages/handout/views.js';
import { type Arguments, defined, flag, parsed, text, valued } from './arguments.js';
import { addPageOutput } from './page-output.js';
import { parseList } from './values.js';

const PAGE = 'What the page says:';

export function addHandoutOptions(parser: Argv): Argv {
  const value = (describe: string) => valued(PAGE, describe);
  const own = parser
    .option('title', value('Title of the page [that of the score]'))
    .option('student', value("The student's name [that of --for]"))
    .option('date', value('Date of the lesson, as it is to stand there'))
    .option('notes', value('Your own words to the student'))
    .option('compare', {
      group: PAGE,
      type: 'boolean',
      describe: 'The printed and the easier fingering under each other',
    })
    .option(
      'views',
      value(
        'Keyboard views, such as 12 or 12:3,14 (measure:beat), or none [where forearm or thumb move most]',
      ),
    );
  return addPageOutput(own);
}

export function handoutOptions(args: Arguments): Omit<HandoutOptions, 'version'> {
  return {
    ...defined({
      title: text(args, 'title'),
      student: studentOf(args),
      date: text(args, 'date'),
      notes: text(args, 'notes'),
      views: parsed(args, 'views', parseViews),
    }),
    compare: flag(args, 'compare'),
  };
}

/** Whose page it is: the settings are for somebody. */
export function studentOf(args: Arguments): string | undefined {
  return text(args, 'student') ?? text(args, 'for');
}

/** `12`, `12:3`, `12:2.5,14`, or `none`. */
function parseViews(typed: string): ViewPlace[] {
  if (typed === 'none') return [];
  return parseList('views', typed).map((item) => {
    const [, measure, beat] = /^([^:]+)(?::(\d+(?:\.\d+)?))?$/.exec(item) ?? [];
    if (measure === undefined)
      throw usageError(`--views ${typed}: "${item}" is not understood; write measure:beat, such as 12:3`);
    return beat === undefined ? { measure } : { measure, beat: Number(beat) };
  });
}
