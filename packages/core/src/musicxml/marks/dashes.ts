import { subtract, toNumber } from '../../numeric/fraction.js';
import type { Note, Part } from '../../score/model.js';
import type { XmlElement } from '../xml/tree.js';
import { type Direction, type DirectionOptions, insertDirection, placeOf } from './cue.js';
import type { CueMark } from './edit.js';
import { type Reach, reachName, TICKS } from './record/reach.js';

/** Every version of MusicXML has six numbers to tell lines that go on at a time, and MuseScore 3 reads no more. */
const NUMBERS = ['6', '5', '4', '3', '2', '1'] as const;

/** Where dashes go. */
interface Way {
  readonly from: ReturnType<typeof placeOf>;
  readonly to: ReturnType<typeof placeOf>;
  /** True where they go up to the barline, behind the last note of the voice; else up to the note before which they end. */
  readonly toBarline: boolean;
  readonly number: string;
  /** What the words record of it. */
  readonly record: string;
}

/**
 * The dashes behind cues: two directions of their own, because words that share one with dashes lose their font, and so our
 * record, in MuseScore. Programs join the start to the words right before it, and the stop to the start before it in the file
 * with its number; so there are none where the file has the last note first, as another voice may. Nor are there any in a
 * part of several staves behind another one: verovio counts the staff of dashes within their part, and that of words through the
 * score, so that it joins none to the words, and now and then some to a dynamic of the user's.
 */
export class DashesWriter {
  readonly #free: readonly string[];
  /** By part and number, where the last line ends in the file. */
  readonly #last = new Map<string, number>();

  constructor(root: XmlElement) {
    const used = new Set(root.within('dashes').map((dashes) => dashes.attribute('number') ?? '1'));
    this.#free = NUMBERS.filter((number) => !used.has(number));
  }

  /** Undefined where there is no way to write the dashes of a cue. */
  wayOf(mark: CueMark, part: Part, elements: readonly XmlElement[]): Way | undefined {
    const number = this.#free[mark.placement === 'above' ? 0 : 1];
    const target = mark.dashesTo === undefined ? undefined : elements[mark.dashesTo];
    if (number === undefined || target === undefined) return undefined;
    const from = placeOf(elements[mark.note]!);
    if (part.index > 0 && from.staff !== undefined) return undefined;
    const [start, end] = [part.notes[mark.note]!, part.notes[mark.dashesTo!]!];
    const toBarline = end.measure > start.measure;
    const to = toBarline ? { ...from, head: lastOfVoice(elements[mark.note]!) } : placeOf(target);
    const key = `${mark.part} ${number}`;
    const isInOrder = (this.#last.get(key) ?? 0) <= from.head.start && from.head.start < to.head.start;
    if (!isInOrder || from.staff !== to.staff) return undefined;
    this.#last.set(key, to.head.start);
    const record = reachName(toBarline ? NEXT_MEASURE : reach(part, start, end));
    return { from, to, toBarline, number, record };
  }

  write(
    text: string,
    { from, to, toBarline, number }: Way,
    { placement }: CueMark,
    options: DirectionOptions,
  ): Direction[] {
    const direction = { kind: 'dashes', placement } as const;
    return [
      insertDirection(text, from.head, { ...direction, ...from, text: `start-${number}` }, options),
      insertDirection(
        text,
        to.head,
        { ...direction, ...to, text: `stop-${number}` },
        options,
        toBarline ? 'behind' : 'before',
      ),
    ];
  }
}

/** The end of a measure is where the next one begins. */
const NEXT_MEASURE: Reach = { measures: 1, tick: 0 };

/** The last note in a note's measure that has its voice and its staff. */
function lastOfVoice(note: XmlElement): XmlElement {
  const isAlike = (name: string, other: XmlElement) => other.textOf(name) === note.textOf(name);
  const siblings = note.parent?.children ?? [];
  const alike = siblings.filter(
    (other) => other.name === 'note' && isAlike('voice', other) && isAlike('staff', other),
  );
  return alike.at(-1) ?? note;
}

function reach({ measures }: Part, from: Note, to: Note): Reach {
  const into = toNumber(subtract(to.onset, measures[to.measure]!.start));
  return { measures: to.measure - from.measure, tick: Math.round(into * TICKS) };
}
