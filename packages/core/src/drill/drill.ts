import { annotated } from '../annotate.js';
import { cautionText } from '../cues/wording.js';
import { callback } from '../options/check.js';
import type { Language } from '../options/options.js';
import type { Report } from '../options/report.js';
import { settingsOf } from '../pipeline/settings.js';
import { HandlineError } from '../score/errors.js';
import { engrave } from './engraving/engrave.js';
import type { DrillOptions, SheetMarking } from './options.js';
import { sectionsOf } from './sections.js';
import { type DrillSettings, drillSettings } from './settings.js';
import { writeSheet } from './write/score.js';

/** Characters. */
const CAUTION_LINE = 38;

/** A technique sheet. */
export interface Drill {
  /** MusicXML 4.0 with digits and cues. */
  readonly output: string;
  /** As `annotate` reports on the sheet. */
  readonly report: Report;
  /** Its headings, with the printed numbers of the measures where they stand. */
  readonly contents: readonly {
    /** Its text. */
    readonly heading: string;
    /** Printed number of the measure. */
    readonly measure: string;
  }[];
}

/** What is done while a sheet is made: first its fragments are compared, then it is written, then marked. */
export interface DrillProgress {
  /** What is being done. */
  readonly stage: 'composing' | 'writing' | 'marking';
  /** Of this stage, 0 ... 1. */
  readonly done: number;
}

/**
 * Makes a technique sheet: scales, arpeggios, fragments and the like in the keys that are asked for, written as new
 * MusicXML and then marked as `annotate` marks any score, for the hand of the span given.
 *
 * @param progress is told what is being done
 * @throws HandlineError OPTION where an option is bad, or a note would lie beyond the keyboard
 */
export function drill(
  options: DrillOptions = {},
  progress: (progress: DrillProgress) => void = () => undefined,
): Drill {
  callback(progress, 'progress');
  const settings = drillSettings(options);
  const sections = sectionsOf(settings, (done) => progress({ stage: 'composing', done }));
  if (sections.every(({ exercises }) => exercises.length === 0)) {
    throw new HandlineError(
      'OPTION',
      'there is nothing to print with these options; take more keys, kinds or lengths',
    );
  }
  // A study has its rhythms as exercises.
  const isStudy = settings.own?.use === 'study';
  const measures = engrave(
    sections,
    settings.hands,
    isStudy ? settings.rhythms.slice(0, 1) : settings.rhythms,
  );
  progress({ stage: 'writing', done: 0 });
  const { hands, metre, tempo, words, language } = settings;
  const sheet = writeSheet(
    {
      title: settings.title ?? titleOf(settings),
      ...(options.legend !== true && { caution: cautionLines(language) }),
      instrument: words.piano,
      ...{ hands, metre, tempo },
    },
    measures,
  );
  progress({ stage: 'marking', done: 0 });
  const { output, report } = annotated(sheet, {
    ...settingsOf({ ...marking(options), ...singleStaff(settings) }),
    stretches: measures.flatMap(({ heading }, at) => (heading === undefined ? [] : [at])),
  });
  return {
    output,
    report,
    contents: measures.flatMap(({ heading }, at) =>
      heading === undefined ? [] : [{ heading, measure: String(at + 1) }],
    ),
  };
}

function titleOf({ patterns, awkward, own, words }: DrillSettings): string {
  if (own) return words.titles[own.use === 'study' ? 'study' : 'motive'];
  if (awkward !== undefined) return words.titles.awkward;
  return patterns.map((own) => words.titles[own]).join(', ');
}

/** In lines short enough to stand over one measure. */
function cautionLines(language: Language): string {
  const lines = [''];
  for (const word of cautionText(language).split(' ')) {
    const longer = `${lines.at(-1)} ${word}`.trim();
    if (longer.length > CAUTION_LINE) lines.push(word);
    else lines[lines.length - 1] = longer;
  }
  return lines.join('\n');
}

/** The hand of a single staff does not follow from its clef. */
function singleStaff({ hands }: DrillSettings) {
  const [hand, other] = hands;
  return other || !hand ? {} : { staff: { [hand]: [1] } };
}

function marking(options: DrillOptions): SheetMarking {
  const { hands, span, digits, by, alternatives, layers, density, language, wording, legend } = options;
  const all = { hands, span, digits, by, alternatives, layers, density, language, wording, legend };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}
