import type { Cue } from '../../cues/cues.js';
import { type CueKey, DEFAULT_LAYERS } from '../../cues/keys.js';
import { handWord, legendText, spacedLines } from '../../cues/wording.js';
import { includesHand, type Line } from '../../hands/line.js';
import type { CueMark, DigitMark, Marks } from '../../musicxml/marks/edit.js';
import type { Hand, Note, Part, Score } from '../../score/model.js';
import { handPlacement } from '../placement.js';
import type { LineAnalysis } from '../plan.js';
import { leavesNoDigit } from '../printed.js';
import type { Selection } from '../selection.js';
import type { Settings } from '../settings.js';
import type { Share } from '../share-hands.js';
import { type FingerMarks, fingerMarks } from './choose-digits.js';

/** Collects what is to be printed, one analysed line after the other. */
export class MarkList {
  readonly #digits: DigitMark[] = [];
  readonly #bared: Pick<DigitMark, 'part' | 'note'>[] = [];
  /** A hand word concerns both hands, whichever is marked; it comes before the cues at its place. */
  readonly #handWords: CueMark[] = [];
  readonly #cues: CueMark[] = [];
  readonly #used = new Set<CueKey>();
  readonly #taking = new Set<Hand>();
  #dashes = false;

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
    const words = handWords(part, line, shares, settings);
    for (const mark of words) {
      if (!chosen(part.notes[mark.note]!.measure)) continue;
      this.#handWords.push(mark);
      this.#taking.add(line.hand);
    }
    if (!includesHand(settings.hands, line.hand)) return [];
    const fingers = settings.digits === 'none' ? NONE : fingerMarks(this.score, analysis, settings, chosen);
    if (leavesNoDigit(settings)) this.#bare(line, part, chosen);
    for (const mark of fingers.digits) this.#digits.push(mark);
    for (const mark of fingers.alternatives) this.#cues.push(mark);
    // Other words may stand in the way of a row.
    const inRows = words.length === 0 && fingers.alternatives.length === 0;
    for (const cue of analysis.cues) {
      if (!chosen(line.slices[cue.slice]!.measure)) continue;
      const mark = cueMark(part, line, cue, chosen, inRows);
      if (mark) this.#cues.push(mark);
      if (mark?.dashesTo !== undefined) this.#dashes = true;
      for (const key of cue.keys) this.#used.add(key);
    }
    return fingers.digits;
  }

  /** No digits are wanted, neither ours nor those that were to make room for ours: not at tied heads either. */
  #bare({ part, slices }: Line, { notes }: Part, chosen: Selection): void {
    const own = new Set<number>();
    for (const { struck } of slices) for (const key of struck) for (const note of key.notes) own.add(note);
    for (const { id, tiedFrom, measure } of notes) {
      if (own.has(tiedFrom)) own.add(id);
      if (own.has(id) && chosen(measure)) this.#bared.push({ part, note: id });
    }
  }

  marks(): Marks {
    const { existing, legend, language, layers, wording } = this.settings;
    return {
      digits: this.#digits,
      ...(this.#bared.length > 0 && { bared: this.#bared }),
      cues: [...this.#handWords, ...this.#cues],
      isCrowded: layers.some((layer) => !DEFAULT_LAYERS.includes(layer)),
      replaceDigits: existing === 'replace',
      ...(legend && {
        legend: legendText(language, layers, wording, [...this.#used], [...this.#taking], this.#dashes),
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
function cueMark(
  { notes }: Part,
  line: Line,
  cue: Cue,
  chosen: Selection,
  inRows: boolean,
): CueMark | undefined {
  const note = line.slices[cue.slice]!.struck[0]?.notes[0];
  if (note === undefined) return undefined;
  const end = cue.dashes ? lastNote(notes, line, notes[note]!, cue.end) : undefined;
  return {
    part: line.part,
    note,
    text: spacedLines(cue.text),
    placement: handPlacement(line.hand),
    ...(inRows && { inRows }),
    ...(end && chosen(end.measure) && { dashesTo: end.id }),
  };
}

/** A note of a slice in the voice and on the staff of the first: MuseScore moves the end of dashes to notes of their voice. */
function lastNote(notes: Part['notes'], line: Line, first: Note, slice: number): Note | undefined {
  for (const { notes: heads } of line.slices[slice]!.struck) {
    for (const id of heads) {
      const note = notes[id]!;
      if (note.staff === first.staff && note.voice === first.voice) return note;
    }
  }
  return undefined;
}
