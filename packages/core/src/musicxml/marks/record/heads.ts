import type { XmlElement } from '../../xml/tree.js';
import { TICKS } from './reach.js';

/** A time in a part: index of the measure, ticks from its beginning. */
export interface Moment {
  readonly measure: number;
  readonly tick: number;
}

/** A note head with a pitch. */
export interface Head extends Moment {
  readonly element: XmlElement;
  readonly grace: boolean;
  /** MIDI number. */
  readonly key: number;
}

/** The note heads of one part in an order that does not depend on how a program writes voices and chords. */
export interface PartHeads {
  readonly heads: readonly Head[];
  /** Of those elements that were asked for, in document order. */
  readonly moments: ReadonlyMap<XmlElement, Moment>;
}

const STEPS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
/** Times that programs round differently fall on one tick. */
const ROUNDING = 0.4;

/**
 * The note heads of every part, by its place in the score. Reads what stands there as far as it can: other programs
 * and other hands have been at it.
 *
 * @param root of a score, partwise or timewise
 * @param wanted elements whose times are asked for
 */
export function headsOf(root: XmlElement, wanted: ReadonlySet<XmlElement>): PartHeads[] {
  const walks: Walk[] = [];
  if (root.name === 'score-timewise') {
    root.all('measure').forEach((measure, at) => {
      measure.all('part').forEach((part, nth) => {
        walks[nth] ??= new Walk(wanted);
        walks[nth].measure(part, at);
      });
    });
  } else {
    root.all('part').forEach((part, nth) => {
      const walk = new Walk(wanted);
      walks[nth] = walk;
      part.all('measure').forEach((measure, at) => {
        walk.measure(measure, at);
      });
    });
  }
  return walks.map((walk) => walk.done());
}

class Walk {
  readonly #heads: Head[] = [];
  readonly #moments = new Map<XmlElement, Moment>();
  #divisions = 1;

  constructor(private readonly wanted: ReadonlySet<XmlElement>) {}

  measure(content: XmlElement, measure: number): void {
    let time = 0;
    let last = 0;
    for (const element of content.children) {
      switch (element.name) {
        case 'attributes':
          this.#divisions = positive(element.lastTextOf('divisions')) || this.#divisions;
          break;
        case 'forward':
          this.#note(element, measure, time);
          time += this.#quarters(element.lastTextOf('duration'));
          break;
        case 'backup':
          this.#note(element, measure, time);
          time = Math.max(0, time - this.#quarters(element.lastTextOf('duration')));
          break;
        case 'direction':
          this.#note(element, measure, time);
          break;
        case 'note': {
          const note = writtenNote(element);
          if (!note.chord) last = time;
          this.#note(element, measure, last);
          if (note.key !== undefined) {
            this.#heads.push({ measure, tick: tickOf(last), element, grace: note.grace, key: note.key });
          }
          if (!note.chord && !note.grace) time += this.#quarters(note.duration);
          break;
        }
      }
    }
  }

  done(): PartHeads {
    return { heads: this.#heads.sort(inOrder), moments: this.#moments };
  }

  /** Takes note of the time of an element that was asked for. */
  #note(element: XmlElement, measure: number, time: number): void {
    if (!this.wanted.has(element)) return;
    const offset = Number(element.lastTextOf('offset') ?? 0) / this.#divisions || 0;
    this.#moments.set(element, { measure, tick: tickOf(time + offset) });
  }

  #quarters(duration: string | undefined): number {
    return positive(duration) / this.#divisions;
  }
}

function tickOf(quarters: number): number {
  return Math.floor(quarters * TICKS + ROUNDING);
}

function positive(text: string | undefined): number {
  const value = Number(text);
  return value > 0 && Number.isFinite(value) ? value : 0;
}

function writtenNote(note: XmlElement) {
  const [chord, grace] = [note.has('chord'), note.has('grace')];
  return { chord, grace, duration: note.lastTextOf('duration'), key: keyOf(note.child('pitch')) };
}

/** MIDI number, where the pitch can be read. */
function keyOf(pitch: XmlElement | undefined): number | undefined {
  const step = STEPS[pitch?.lastTextOf('step')?.trim() ?? ''];
  if (pitch === undefined || step === undefined) return undefined;
  const [octave, alter] = [Number(pitch.lastTextOf('octave')), Number(pitch.lastTextOf('alter') ?? 0)];
  const key = step + 12 * octave + 12 + Math.round(alter);
  return Number.isFinite(key) ? key : undefined;
}

/** Before, at the same time as, or after. */
export function byMoment(a: Moment, b: Moment): number {
  return a.measure - b.measure || a.tick - b.tick;
}

function inOrder(a: Head, b: Head): number {
  return byMoment(a, b) || Number(b.grace) - Number(a.grace) || a.key - b.key;
}

/** Index of the first head that is not before a moment. */
export function firstFrom(heads: readonly Head[], moment: Moment): number {
  let [low, high] = [0, heads.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (byMoment(heads[middle] as Head, moment) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Semitones above C. */
export function pitchClass({ key }: Head): number {
  return ((key % 12) + 12) % 12;
}
