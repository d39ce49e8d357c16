import type { Cue } from '../../cues/cues.js';
import type { CueKey } from '../../cues/keys.js';
import { handWord, legendText, printedLines } from '../../cues/wording.js';
import { includesHand, type Line } from '../../hands/line.js';
import type { CueMark, DigitMark, Marks } from '../../musicxml/marks/edit.js';
import type { Hand, Part, Score } from '../../score/model.js';
import { handPlacement } from '../placement.js';
import type { LineAnalysis } from '../plan.js';
import type { Selection } from '../selection.js';
import type { Settings } from '../settings.js';
import type { Share } from '../share-hands.js';
import { type FingerMarks, fingerMarks } from './choose-digits.js';

/** Collects what is to be printed, one analysed line after the other. */
export class MarkList {
  readonly #digits: DigitMark[] = [];
  /** A hand word concerns both hands, whichever is marked; it comes before the cues at its place. */
  readonly #handWords: CueMark[] = [];
  readonly #cues: CueMark[] = [];
  readonly #used = new Set<CueKey>();
  readonly #taking = new Set<Hand>();

  constructor(
    private readonly score: Score,
    private readonly settings: Settings,
    private readonly select: (part: number) => Selection,
  ) {}

  /** @returns the digits of the line */
  add(analysis: LineAnalysis): readonly DigitMark[] {
    const { line, shares } = analysis;
    const { settings } = this;
    const chosen = this.select(line.part);
    const part = this.score.parts[line.part]!;
    for (const mark of handWords(part, line, shares, settings)) {
      if (!chosen(part.notes[mark.note]!.measure)) continue;
      this.#handWords.push(mark);
      this.#taking.add(line.hand);
    }
    if (!includesHand(settings.hands, line.hand)) return [];
    const fingers = settings.digits === 'none' ? NONE : fingerMarks(this.score, analysis, settings, chosen);
    for (const mark of fingers.digits) this.#digits.push(mark);
    for (const mark of fingers.alternatives) this.#cues.push(mark);
    for (const cue of analysis.cues) {
      if (!chosen(line.slices[cue.slice]!.measure)) continue;
      const mark = cueMark(line, cue);
      if (mark) this.#cues.push(mark);
      for (const key of cue.keys) this.#used.add(key);
    }
    return fingers.digits;
  }

  marks(): Marks {
    const { existing, legend, language, layers, wording } = this.settings;
    return {
      digits: this.#digits,
      cues: [...this.#handWords, ...this.#cues],
      replaceDigits: existing === 'replace',
      ...(legend && {
        legend: legendText(language, layers, wording, [...this.#used], [...this.#taking]),
      }),
    };
  }
}

const NONE: FingerMarks = { digits: [], alternatives: [] };

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
