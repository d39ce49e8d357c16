import type { Cue } from '../cues/cues.js';
import type { CueKey } from '../cues/keys.js';
import { handWord, legendText, printedLines } from '../cues/wording.js';
import { includesHand, type Line } from '../hands/line.js';
import type { CueMark, DigitMark, Marks } from '../musicxml/marks/edit.js';
import type { Hand, Part, Score } from '../score/model.js';
import { fingerMarks } from './choose-digits.js';
import { handPlacement } from './placement.js';
import type { LineAnalysis } from './plan.js';
import type { Selection } from './selection.js';
import type { Settings } from './settings.js';
import type { Share } from './share-hands.js';

/** What is to be printed for the analysed lines. */
export function marksOf(
  score: Score,
  lines: readonly LineAnalysis[],
  settings: Settings,
  select: (part: number) => Selection,
): Marks {
  const digits: DigitMark[] = [];
  const cues: CueMark[] = [];
  const used = new Set<CueKey>();
  const taking = new Set<Hand>();
  // A hand word concerns both hands, whichever is marked.
  for (const { line, shares } of lines) {
    const chosen = select(line.part);
    for (const mark of handWords(score.parts[line.part]!, line, shares, settings)) {
      if (!chosen(score.parts[line.part]!.notes[mark.note]!.measure)) continue;
      cues.push(mark);
      taking.add(line.hand);
    }
  }
  for (const analysis of lines) {
    const { line } = analysis;
    if (!includesHand(settings.hands, line.hand)) continue;
    const chosen = select(line.part);
    if (settings.digits !== 'none') {
      const fingers = fingerMarks(score, analysis, settings, chosen);
      for (const mark of fingers.digits) digits.push(mark);
      for (const mark of fingers.alternatives) cues.push(mark);
    }
    for (const cue of analysis.cues) {
      if (!chosen(line.slices[cue.slice]!.measure)) continue;
      const mark = cueMark(line, cue);
      if (mark) cues.push(mark);
      for (const key of cue.keys) used.add(key);
    }
  }
  return {
    digits,
    cues,
    replaceDigits: settings.existing === 'replace',
    ...(settings.legend && {
      legend: legendText(settings.language, settings.layers, settings.wording, [...used], [...taking]),
    }),
  };
}

/** A word for the hand that takes a part of the other's chord, one on each staff where it takes something. */
function handWords(
  { notes }: Part,
  { hand, part }: Line,
  shares: readonly Share[],
  { language }: Settings,
): CueMark[] {
  const marks: CueMark[] = [];
  for (const { takenBy, taken } of shares) {
    if (takenBy !== hand) continue;
    const firsts = new Map<number, number>();
    for (const note of taken) {
      const { staff } = notes[note]!;
      if (!firsts.has(staff)) firsts.set(staff, note);
    }
    for (const note of firsts.values())
      marks.push({ part, note, text: handWord(language, hand), placement: handPlacement(hand) });
  }
  return marks;
}

/** A cue stands before the slice's lowest struck note; the writer keeps it out of chords. */
function cueMark(line: Line, { slice, text }: Cue): CueMark | undefined {
  const note = line.slices[slice]!.struck[0]?.notes[0];
  return note === undefined
    ? undefined
    : { part: line.part, note, text: printedLines(text), placement: handPlacement(line.hand) };
}
