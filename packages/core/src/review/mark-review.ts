import { cautionText } from '../cues/wording.js';
import type { CueMark, DigitMark } from '../musicxml/marks/edit.js';
import { writeMarks } from '../musicxml/marks/write.js';
import { readScore } from '../musicxml/read/score.js';
import { checkMarkingReview, checkReview, inputOf } from '../options/allowed.js';
import type { Input, Language, Output } from '../options/options.js';
import type { MarkReviewOptions } from '../options/review-options.js';
import { openAsPrinted, openSource } from '../pipeline/open.js';
import { handPlacement } from '../pipeline/placement.js';
import { limitsOf } from '../pipeline/settings.js';
import { optionError } from '../score/errors.js';
import type { Hand, Note, Part } from '../score/model.js';
import { type Proposal, proposalMarks } from './proposal-marks.js';
import type { Changed, Review } from './report-types.js';

/**
 * The score with a review in it: every finding at its note, as its number in brackets or in words, and the easier digits, or
 * those of a second fingering, in parentheses over the printed ones or below them, so that both can be tried. `clear` takes
 * it all out again. Digits of our own stay, our cues are left out.
 *
 * @param review of this input
 * @returns output of the same form as the input
 * @throws HandlineError where the input is not a score or exceeds a limit, an option is bad, or the review is not its own
 */
export function markReview<T extends Input>(
  input: T,
  review: Review,
  options: MarkReviewOptions = {},
): Output<T> {
  const given = inputOf(input);
  checkReview(review);
  checkMarkingReview(options);
  const { file, form = 'numbers' } = options;
  const limits = limitsOf(options.limits);
  const context = { limits, ...(file !== undefined && { file }) };
  const printed = openAsPrinted(given, limits, file);
  const asPrinted = readScore(printed.root, printed.text, context).score.parts;
  const source = openSource(given, limits, file);
  const read = readScore(source.root, source.text, context);
  const notes = new Map<number, Note & { readonly part: number }>();
  for (const part of asPrinted)
    for (const note of part.notes) notes.set(note.span.start, { ...note, part: part.index });
  const noteAt = (start: number) => {
    const note = notes.get(start);
    if (note) return note;
    throw optionError(
      'review',
      'it speaks of other notes than this score has',
      file === undefined ? {} : { file },
    );
  };
  const digits = ownDigits(asPrinted, read.score.parts);
  const ours = new Set(digits.map(({ part, note }) => `${part} ${note}`));
  const choices = proposed(review).flatMap(({ hand, change }): Proposal[] => {
    const { part, id } = noteAt(change.note.start);
    const { printed, finger } = change;
    return ours.has(`${part} ${id}`)
      ? []
      : [{ part, note: asPrinted[part]!.notes[id]!, hand, printed, finger }];
  });
  const numbers = review.findings.map(({ number, hand, note: { start }, text }): CueMark => {
    const { part, id } = noteAt(start);
    const words = form === 'words' ? `[${number}] ${text}` : `[${number}]`;
    return { part, note: id, text: words, placement: handPlacement(hand) };
  });
  const cues = [...proposalMarks(asPrinted, choices), ...numbers];
  const legend = [review.advice, cautionText(review.language as Language)].join('\n');
  const edits = writeMarks(source.text, read, {
    digits,
    cues,
    replaceDigits: false,
    ...(digits.length + cues.length > 0 && { legend }),
  });
  return source.wrap(edits).output as Output<T>;
}

/** The digits of second fingerings, or else those of the remedies; only where they stand in for a printed one or are printed themselves. */
function proposed({
  findings,
  comparisons,
}: Review): readonly { readonly hand: Hand; readonly change: Changed }[] {
  const ofOthers = comparisons.flatMap(({ hand, differs }) => differs.map((change) => ({ hand, change })));
  if (comparisons.length > 0) return ofOthers;
  return findings.flatMap(({ hand, remedy }) => (remedy?.changes ?? []).map((change) => ({ hand, change })));
}

/** Digits of our own marks, which the text has no longer. */
function ownDigits(printed: readonly Part[], cleared: readonly Part[]): DigitMark[] {
  const marks: DigitMark[] = [];
  for (const part of printed) {
    for (const note of part.notes) {
      const main = note.digits.find(({ substitution, alternate }) => !substitution && !alternate);
      if (!main || cleared[part.index]!.notes[note.id]!.digits.length > 0) continue;
      const then = note.digits.find(({ substitution }) => substitution)?.finger;
      const mark = {
        part: part.index,
        note: note.id,
        finger: main.finger,
        placement: placementOf(note),
      } as const;
      marks.push(then === undefined ? mark : { ...mark, substitution: then });
    }
  }
  return marks;
}

function placementOf({ staff }: Note): 'above' | 'below' {
  return staff > 1 ? 'below' : 'above';
}
