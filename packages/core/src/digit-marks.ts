import type { LineAnalysis } from './analyse.js';
import type { Settings } from './checked.js';
import { sparseDigits } from './fingering/sparse.js';
import type { Line } from './hands/line.js';
import type { Selection } from './marks.js';
import type { DigitMark } from './musicxml/edit.js';
import { digitPlacement } from './placement.js';
import type { Draft } from './score/draft.js';
import type { Finger, Note, Score } from './score/model.js';

/** True where the file itself prints the note's finger. */
export function isPrinted(note: Note, { stacked }: Line): boolean {
  return stacked?.has(note.id) || note.stack.length > 0 || note.digits.some(({ alternate }) => !alternate);
}

/** The digits to print for one line: on every note, or on those that a reader needs. */
export function digitMarks(
  score: Score,
  analysis: LineAnalysis,
  settings: Settings,
  chosen: Selection,
): DigitMark[] {
  const { line, fingering, alternates } = analysis;
  const part = score.parts[line.part]!;
  const { notes } = part;
  const placement = digitPlacement(part, line.hand);
  const isKept = (note: number) => settings.existing !== 'replace' && isPrinted(notes[note]!, line);
  const changes = substitutions(analysis);
  const needed = settings.digits === 'sparse' ? neededDigits(analysis, changes, isKept, chosen) : undefined;
  const marks: DigitMark[] = [];
  line.slices.forEach((slice, at) => {
    if (!chosen(slice.measure)) return;
    slice.struck.forEach((struck, nth) => {
      const finger = fingering.slices[at]!.struck[nth];
      if (!finger || needed?.[at]?.struck[nth] === null) return;
      const others = alternates?.[at]?.[nth] ?? [];
      for (const note of struck.notes) {
        if (isKept(note)) continue;
        const substitution = changes.get(note);
        const mark: Draft<DigitMark> = { part: line.part, note, finger, placement: placement(notes[note]!) };
        if (substitution !== undefined) mark.substitution = substitution;
        if (others.length > 0) mark.alternates = others;
        marks.push(mark);
      }
    });
  });
  return marks;
}

/** What a reader needs who begins with the first chosen measure and finds the file's own digits in print. */
function neededDigits(
  { line, fingering, plan }: LineAnalysis,
  changes: ReadonlyMap<number, Finger>,
  isKept: (note: number) => boolean,
  chosen: Selection,
) {
  const isFirst = (at: number) => at === 0 || !chosen(line.slices[at - 1]!.measure);
  const notesOf = (at: number, nth: number) => line.slices[at]!.struck[nth]!.notes;
  return sparseDigits(line, fingering, {
    always: (at) => isFirst(at) || plan.slices[at]!.crossing !== undefined,
    printed: (at, nth) => notesOf(at, nth).some(isKept),
    substitution: (at, nth) =>
      notesOf(at, nth)
        .map((note) => changes.get(note))
        .find((finger) => finger !== undefined),
  });
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
