import type { LineAnalysis } from './analyse.js';
import type { Settings } from './checked.js';
import { legendText } from './cues/wording.js';
import type { Line } from './hands/line.js';
import type { CueMark, DigitMark, Marks } from './musicxml/edit.js';
import { HandlineError } from './score/errors.js';
import type { Finger, Measure, Note, Score } from './score/model.js';

/** Which measures, by index, are to be marked. */
export type Selection = (measure: number) => boolean;

/**
 * @param measures of one part
 * @throws HandlineError OPTION where no measure has a number that was asked for
 */
export function selectMeasures(measures: readonly Measure[], settings: Settings): Selection {
  const range = settings.measures;
  if (!range) return () => true;
  const from = measures.findIndex(({ number }) => number === range.from);
  const to = measures.findLastIndex(({ number }) => number === range.to);
  if (from < 0 || to < from) {
    const [first, last] = [measures[0]?.number ?? '-', measures.at(-1)?.number ?? '-'];
    throw new HandlineError(
      'OPTION',
      `measures: ${range.from}-${range.to} is no range of this score; it runs from ${first} to ${last}`,
      settings.file === undefined ? {} : { file: settings.file },
    );
  }
  return (measure) => measure >= from && measure <= to;
}

/** What is to be printed for the analysed lines. */
export function marksOf(
  score: Score,
  lines: readonly LineAnalysis[],
  settings: Settings,
  select: (part: number) => Selection,
): Marks {
  const digits: DigitMark[] = [];
  const cues: CueMark[] = [];
  for (const analysis of lines) {
    if (settings.hands !== 'both' && settings.hands !== analysis.line.hand) continue;
    const chosen = select(analysis.line.part);
    if (settings.digits !== 'none') digits.push(...digitMarks(score, analysis, settings, chosen));
    cues.push(...cueMarks(analysis, chosen));
  }
  return {
    digits,
    cues,
    replaceDigits: settings.existing === 'replace',
    ...(settings.legend && { legend: legendText(settings.language, settings.layers, settings.wording) }),
  };
}

function placementOf({ line }: LineAnalysis): 'above' | 'below' {
  return line.hand === 'right' ? 'above' : 'below';
}

/** True where the file itself prints the note's finger. */
export function isPrinted(note: Note, { stacked }: Line): boolean {
  return stacked?.has(note.id) || note.stack.length > 0 || note.digits.some(({ alternate }) => !alternate);
}

function digitMarks(
  score: Score,
  analysis: LineAnalysis,
  settings: Settings,
  chosen: Selection,
): DigitMark[] {
  const { line, fingering } = analysis;
  const notes = score.parts[line.part]!.notes;
  const changes = substitutions(analysis);
  const marks: DigitMark[] = [];
  line.slices.forEach((slice, at) => {
    if (!chosen(slice.measure)) return;
    slice.struck.forEach((struck, nth) => {
      const finger = fingering.slices[at]!.struck[nth];
      if (!finger) return;
      for (const note of struck.notes) {
        if (settings.existing !== 'replace' && isPrinted(notes[note]!, line)) continue;
        const substitution = changes.get(note);
        marks.push({
          part: line.part,
          note,
          finger,
          placement: placementOf(analysis),
          ...(substitution !== undefined && { substitution }),
        });
      }
    });
  });
  return marks;
}

/** First finger that silently takes over each held note, by the note that struck it. */
function substitutions({ line, fingering }: LineAnalysis): ReadonlyMap<number, Finger> {
  const holders = new Map<number, Finger>();
  const changes = new Map<number, Finger>();
  line.slices.forEach((slice, at) => {
    const { struck, held } = fingering.slices[at]!;
    slice.struck.forEach(({ notes }, nth) => {
      const finger = struck[nth];
      if (finger) for (const note of notes) holders.set(note, finger);
    });
    slice.held.forEach(({ notes }, nth) => {
      const finger = held[nth];
      if (!finger) return;
      for (const note of notes) {
        if (holders.get(note) !== finger && !changes.has(note)) changes.set(note, finger);
      }
    });
  });
  return changes;
}

/** A cue stands before the slice's lowest struck note; the writer keeps it out of chords. */
function cueMarks(analysis: LineAnalysis, chosen: Selection): CueMark[] {
  const { line, cues } = analysis;
  return cues.flatMap(({ slice: at, text }) => {
    const slice = line.slices[at]!;
    const note = slice.struck[0]?.notes[0];
    if (note === undefined || !chosen(slice.measure)) return [];
    return [{ part: line.part, note, text, placement: placementOf(analysis) }];
  });
}
