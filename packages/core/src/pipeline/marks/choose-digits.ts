import { sparseDigits } from '../../fingering/sparse/print.js';
import type { Line } from '../../hands/line.js';
import type { CueMark, DigitMark } from '../../musicxml/marks/edit.js';
import type { Draft } from '../../score/draft.js';
import type { Finger, Note, Score } from '../../score/model.js';
import { digitPlacement, handPlacement, InnerVoices } from '../placement.js';
import type { LineAnalysis } from '../plan.js';
import { isPrinted } from '../printed.js';
import type { Selection } from '../selection.js';
import type { Settings } from '../settings.js';

/** What is printed of one line's fingers. */
export interface FingerMarks {
  readonly digits: readonly DigitMark[];
  /**
   * Second choices as words such as `(3)`, at a chord `2 (3)`: of several digits at a note, or of any other text than
   * digits, some programs print one only or none at all.
   */
  readonly alternatives: readonly CueMark[];
}

/** The digits to print for one line, on every note or on those that a reader needs, with their second choices. */
export function fingerMarks(
  score: Score,
  analysis: LineAnalysis,
  settings: Settings,
  chosen: Selection,
): FingerMarks {
  const { line, fingering, alternates } = analysis;
  const part = score.parts[line.part]!;
  const { notes } = part;
  const inner = new InnerVoices(part, line.hand);
  const changes = substitutions(analysis);
  const needed = settings.digits === 'sparse' ? neededDigits(analysis, notes, changes, chosen) : undefined;
  const digits: DigitMark[] = [];
  const alternatives: CueMark[] = [];
  for (let at = 0; at < line.slices.length; at++) {
    const { measure, struck } = line.slices[at]!;
    if (!chosen(measure)) continue;
    const lines: string[] = [];
    for (let nth = 0; nth < struck.length; nth++) {
      const finger = fingering.slices[at]!.struck[nth];
      if (!finger || needed?.[at]?.struck[nth] === null) continue;
      const others = alternates?.[at]?.[nth] ?? [];
      const before = digits.length;
      const heads = struck[nth]!.notes.map((note) => notes[note]!);
      for (const head of headsToMark(heads, line, settings, inner)) {
        const note = head.id;
        const substitution = changes.get(note);
        const placement = digitPlacement(head, line.hand, inner);
        const mark: Draft<DigitMark> = { part: line.part, note, finger, placement };
        if (substitution !== undefined) mark.substitution = substitution;
        digits.push(mark);
      }
      if (others.length > 0 && digits.length > before) {
        const choice = `(${others.join(', ')})`;
        lines.unshift(struck.length > 1 ? `${finger} ${choice}` : choice);
      }
    }
    const note = struck[0]?.notes[0];
    if (note === undefined || lines.length === 0) continue;
    alternatives.push({ part: line.part, note, text: lines.join('\n'), placement: handPlacement(line.hand) });
  }
  return { digits, alternatives };
}

/**
 * The heads of one key that get our digit: of a unison on one staff one alone, as editors do (175 unisons with a digit in 145
 * human-fingered scores, none with two; at the outer voice in 134 of the 170 that can be told apart), and none where the file
 * keeps a digit at one of them.
 */
function headsToMark(
  heads: readonly Note[],
  line: Line,
  { existing }: Settings,
  inner: InnerVoices,
): readonly Note[] {
  if (heads.length === 1) return existing !== 'replace' && isPrinted(heads[0]!, line) ? [] : heads;
  const staves = new Set(heads.map(({ staff }) => staff));
  return [...staves].flatMap((staff) => {
    const own = heads.filter((head) => head.staff === staff);
    const printed = own.filter((head) => isPrinted(head, line));
    if (printed.length > 0) return existing === 'replace' ? printed : [];
    const plain = handPlacement(line.hand);
    return [own.find((head) => digitPlacement(head, line.hand, inner) === plain) ?? own[0]!];
  });
}

/**
 * What a reader needs who begins with the first chosen measure and finds a digit wherever the file has one: its own, or the
 * one that replaces it.
 */
function neededDigits(
  { line, fingering, plan, shares }: LineAnalysis,
  notes: readonly Note[],
  changes: ReadonlyMap<number, Finger>,
  chosen: Selection,
) {
  const isFirst = (at: number) => at === 0 || !chosen(line.slices[at - 1]!.measure);
  // Written for the other hand: no reader would know the finger.
  const taken = new Set(shares.flatMap((own) => (own.takenBy === line.hand ? [...own.taken] : [])));
  const notesOf = (at: number, nth: number) => line.slices[at]!.struck[nth]!.notes;
  return sparseDigits(line, fingering, {
    always: (at) => isFirst(at) || plan.slices[at]!.crossing !== undefined,
    printed: (at, nth) => notesOf(at, nth).some((note) => isPrinted(notes[note]!, line) || taken.has(note)),
    substitution: (at, nth) =>
      notesOf(at, nth)
        .map((note) => changes.get(note))
        .find((finger) => finger !== undefined),
  });
}

/**
 * First finger that silently takes over each held note, by the note that struck it. Where the hand lets another key go at
 * the same time, it has moved on, and the pedal or the other hand holds what is held.
 */
function substitutions({ line, fingering }: LineAnalysis): ReadonlyMap<number, Finger> {
  const holders = new Map<number, Finger>();
  const changes = new Map<number, Finger>();
  for (let at = 0; at < line.slices.length; at++) {
    const { struck, held } = line.slices[at]!;
    const fingers = fingering.slices[at]!;
    for (let nth = 0; nth < struck.length; nth++) {
      const finger = fingers.struck[nth];
      if (finger) for (const note of struck[nth]!.notes) holders.set(note, finger);
    }
    if (fingers.held.includes(null)) continue;
    for (let nth = 0; nth < held.length; nth++) {
      const finger = fingers.held[nth];
      if (!finger) continue;
      for (const note of held[nth]!.notes) {
        if (holders.get(note) !== finger && !changes.has(note)) changes.set(note, finger);
      }
    }
  }
  return changes;
}
