import type { HandModel } from '../anatomy/hand.js';
import type { PlayingContext } from '../hands/context.js';
import type { Line, Slice, SliceKey } from '../hands/line.js';
import { canHold, goesEasily } from './other-hand.js';
import { type SliceView, viewLine } from './view/view.js';

/** A hand's line with notes in it that are written for the other hand: are these still easy to take? */
export class TakenKeys {
  readonly #line: Line;
  readonly #hand: HandModel;
  readonly #context: PlayingContext;
  readonly #views: readonly SliceView[];
  readonly #sliceOf = new Map<number, number>();

  /** @param context of the line as it stands, with what it takes */
  constructor(line: Line, hand: HandModel, context: PlayingContext) {
    this.#line = line;
    this.#hand = hand;
    this.#context = context;
    this.#views = viewLine(line, hand, true, context.flow?.cuts);
    for (const { index, struck } of line.slices) {
      for (const { notes } of struck) for (const note of notes) this.#sliceOf.set(note, index);
    }
  }

  /** True where the hand can play the whole slice that strikes the note, with the digits that the file gives. */
  isPlayable(note: number): boolean {
    return this.#views[this.#sliceOf.get(note)!]!.trouble === 'none';
  }

  /**
   * True where the hand takes the notes of one chord with ease: within its comfortable reach together with all that it
   * has to hold, for as long as they last, and, where it has nothing else to play, near and slow enough to go there and on.
   *
   * @param taken note ids
   */
  areEasy(taken: ReadonlySet<number>): boolean {
    const [first] = taken;
    const { slices } = this.#line;
    const at = this.#sliceOf.get(first!)!;
    const slice = slices[at]!;
    const isTaken = (note: number): boolean => taken.has(note);
    for (let now = at; now === at || slices[now]?.held.some(({ notes }) => notes.some(isTaken)); now++) {
      if (!this.#isComfortable(slices[now]!)) return false;
    }
    const isThere = slice.held.length > 0 || slice.struck.some(({ notes }) => !notes.every(isTaken));
    return isThere || this.#goesThereEasily(slice);
  }

  #isComfortable({ index, struck, held }: Slice): boolean {
    const down = [...struck, ...held.filter(({ pedalled }) => !pedalled)];
    const { trouble, keys } = this.#views[index]!;
    // A view leaves out what the hand lets go, pedalled keys first.
    const holdsAll = trouble === 'none' && keys.length >= down.length;
    return holdsAll && canHold(down.map(keyOf), this.#hand, this.#line.hand, true);
  }

  /** From the slices that are played before this one, and on to those that follow it, repeats and jumps included. */
  #goesThereEasily({ index, struck, seconds }: Slice): boolean {
    const { slices } = this.#line;
    const { flow } = this.#context;
    const keys = struck.map(keyOf);
    const goes = (to: Slice | undefined, within: number): boolean =>
      !to || goesEasily(to.struck.map(keyOf), keys, within);
    const next = slices[index + 1];
    if (!flow?.cuts.has(index) && !goes(slices[index - 1], seconds)) return false;
    if (next?.held.length === 0 && !flow?.cuts.has(next.index) && !goes(next, next.seconds)) return false;
    return (flow?.joins ?? []).every(
      (join) =>
        (join.to !== index || goes(slices[join.from], join.seconds)) &&
        (join.from !== index || goes(slices[join.to], join.seconds)),
    );
  }
}

function keyOf({ key }: SliceKey): number {
  return key;
}
