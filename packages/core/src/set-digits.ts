import { buildLines } from './hands/build.js';
import type { Line } from './hands/line.js';
import { type GivenDigit, giveDigits } from './musicxml/marks/given-digits.js';
import { readScore } from './musicxml/read/score.js';
import { checkDigits, checkReading, inputOf } from './options/allowed.js';
import type { Cleared, Input, LineOptions, Output } from './options/options.js';
import { openSource } from './pipeline/open.js';
import { digitPlacement, InnerVoices } from './pipeline/placement.js';
import { settingsOf } from './pipeline/settings.js';
import { optionError } from './score/errors.js';
import type { Finger, Note, Score } from './score/model.js';

/** A digit for one note head. */
export interface NoteDigit {
  /** Offset of the `<note>` in the score without our marks, as in `NoteReport`. */
  readonly offset: number;
  /** 1, the thumb, to 5. */
  readonly finger: Finger;
}

/**
 * The score with digits of the user's, as if they had been typed in a notation program: `annotate` keeps them and fingers
 * the rest around them, `clear` leaves them. A digit that the note has is replaced, second choices beside it stay. Where a
 * stack of digits at one note head speaks of its whole chord, every note of the chord gets its own digit. Of two digits for
 * one note the last counts.
 *
 * @param input MusicXML text, or the bytes of a MusicXML or .mxl file; marks of ours are taken out
 * @returns output of the same form, otherwise as it was
 * @throws HandlineError where the input is not a score or exceeds a limit, an option is bad, or an offset leads to no note
 */
export function setDigits<T extends Input>(
  input: T,
  digits: readonly NoteDigit[],
  options: LineOptions = {},
): Cleared<T> {
  const given = inputOf(input);
  checkReading(options);
  checkDigits(digits);
  const settings = settingsOf(options);
  const { text, root, rewrite, warnings } = openSource(given, settings.limits, settings.file);
  const read = readScore(root, text, settings);
  const heads = new Heads(read.score, buildLines(read.score, settings).lines);
  const asked = new Map<string, GivenDigit>();
  for (const { offset, finger } of digits) {
    const found = heads.at(offset);
    if (!found) {
      const place = settings.file === undefined ? {} : { file: settings.file };
      throw optionError('digits', `there is no note at offset ${offset}`, place);
    }
    for (const own of heads.sharing(found)) if (!asked.has(keyOf(own))) asked.set(keyOf(own), own);
    asked.set(keyOf(found), { ...found, finger });
  }
  const output = rewrite(giveDigits(text, read, [...asked.values()]));
  return { output: output as Output<T>, warnings };
}

function keyOf({ part, note }: Head): string {
  return `${part} ${note}`;
}

type Head = Omit<GivenDigit, 'finger'>;

/** The note heads of a score by their offset. */
class Heads {
  readonly #score: Score;
  readonly #heads = new Map<number, Head>();
  readonly #stacks = new Map<string, readonly GivenDigit[]>();

  constructor(score: Score, lines: readonly Line[]) {
    this.#score = score;
    for (const { index, notes } of score.parts) {
      for (const { id, span, staff } of notes)
        this.#heads.set(span.start, { part: index, note: id, placement: staff > 1 ? 'below' : 'above' });
    }
    for (const line of lines) this.#addLine(line);
  }

  at(offset: number): Head | undefined {
    return this.#heads.get(offset);
  }

  /** What the stack at a head of the note's chord says of each of its notes; nothing where there is no stack. */
  sharing(head: Head): readonly GivenDigit[] {
    return this.#stacks.get(keyOf(head)) ?? [];
  }

  #addLine({ hand, part, slices, stacked }: Line): void {
    const own = this.#score.parts[part]!;
    const inner = new InnerVoices(own, hand);
    const placed = (note: Note): Head => ({
      part,
      note: note.id,
      placement: digitPlacement(note, hand, inner),
    });
    for (const { struck } of slices) {
      const stack: GivenDigit[] = [];
      for (const { notes, fixed } of struck) {
        for (const id of notes) {
          const head = placed(own.notes[id]!);
          this.#heads.set(own.notes[id]!.span.start, head);
          if (fixed !== undefined && stacked?.has(id)) stack.push({ ...head, finger: fixed });
        }
      }
      for (const one of stack) this.#stacks.set(keyOf(one), stack);
    }
  }
}
