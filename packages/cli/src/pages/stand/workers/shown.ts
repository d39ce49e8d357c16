import {
  type AnnotateOptions,
  clear,
  keyboardView,
  labelNotes,
  type PlannedLine,
  planDigits,
  type ReadLine,
  readLines,
} from '@handline/core';
import type { Engraver, System } from '../../engraver.js';
import { systemBlocks } from '../../handout/systems.js';
import { HANDOUT_WORDS } from '../../handout/words/words.js';
import { excerptsOf, unnamed } from '../../score/excerpt.js';
import { type Named, withPartNames } from '../../score/part-names.js';
import { partwise } from '../../score/partwise.js';

/** What the drawing depends on besides the score. */
export type ShowOptions = Pick<AnnotateOptions, 'file' | 'span'> &
  Required<Pick<AnnotateOptions, 'language' | 'layers'>>;

/** Keys struck in the measures that are engraved at once: few first, so that something is there soon. */
const FIRST = 100;
const FURTHER = 300;
/** mm on the screen for a mm of the keyboard. */
const KEYBOARD_SCALE = 0.26;

/** One hand, as the page needs it to find notes. */
export interface ToldLine {
  /** Name of the part, where it needs one. */
  readonly partName?: string;
  readonly hand: 'right' | 'left';
  /** By slice and key: ids of the note heads, as in the music's `data-note`. */
  readonly ids: readonly (readonly (readonly string[])[])[];
  /** By slice and key: place on the staff as written, 7 x octave + step, where the line says. */
  readonly steps: readonly (readonly (number | undefined)[])[];
}

/** Measures, counted from 0, that are to be engraved in about as many systems as before. */
export interface Run {
  readonly first: number;
  readonly last: number;
  readonly systems: number;
}

/** One system with its ribbons, and its measures, counted from 0. */
export interface DrawnSystem {
  readonly html: string;
  readonly first: number;
  readonly last: number;
}

/** A few systems. */
export interface Drawn {
  readonly systems: readonly DrawnSystem[];
  readonly font: string;
}

/** A marked score with the plan of what is printed in it. */
export class Shown {
  readonly lines: readonly Named<PlannedLine>[];
  readonly #options: ShowOptions;
  readonly #bytes: Uint8Array;
  readonly #excerpt: (first: number, last: number) => string;
  readonly #title: string | undefined;
  readonly #measures: readonly (readonly string[])[];
  /** Keys by measure. */
  readonly #struck: number[] = [];
  #open: readonly ReadLine[] | undefined;

  constructor(bytes: Uint8Array, options: ShowOptions) {
    this.#bytes = bytes;
    this.#options = options;
    const { text, title, measures, parts } = labelNotes(bytes);
    this.lines = withPartNames(planDigits(bytes, this.#reading).lines, parts);
    this.#excerpt = excerptsOf(unnamed(partwise(text)));
    this.#title = title;
    for (const { line } of this.lines) {
      for (const { measure, struck } of line.slices)
        this.#struck[measure] = (this.#struck[measure] ?? 0) + struck.length;
    }
    this.#measures = measures;
  }

  /** What the page needs to know. */
  told() {
    return {
      title: this.#title,
      measures: this.#numbers.length,
      lines: this.lines.map(
        ({ partName, line }): ToldLine => ({
          ...(partName !== undefined && { partName }),
          hand: line.hand,
          ids: line.slices.map(({ struck }) =>
            struck.map(({ notes }) => notes.map((note) => `note-${line.part}-${note}`)),
          ),
          steps: line.slices.map(({ struck }) => struck.map(({ diatonic }) => diatonic)),
        }),
      ),
    };
  }

  /** A few whole systems from a measure on. */
  begun(engraver: Engraver, first: number): Drawn {
    let last = this.#reach(first, first === 0 ? FIRST : FURTHER);
    for (;;) {
      const systems = engraver.systems(this.#excerpt(first, last), { range: { first, last } });
      // The last system is full only where the music ends.
      if (last === this.#end) return this.#drawn(systems, first);
      if (systems.length > 1) return this.#drawn(systems.slice(0, -1), first);
      last = Math.min(this.#end, 2 * last - first + 1);
    }
  }

  /** Systems that were drawn before, as they are now. */
  anew(engraver: Engraver, { first, last, systems: before }: Run): Drawn {
    const text = this.#excerpt(first, last);
    const range = { first, last };
    const full = last < this.#end ? engraver.systems(text, { range, last: 'full' }) : [];
    // What goes over into one more system is not spread out in it.
    const fits = full.length > 0 && full.length <= before;
    return this.#drawn(fits ? full : engraver.systems(text, { range }), first);
  }

  #drawn(systems: readonly System[], first: number): Drawn {
    const { language, layers } = this.#options;
    const words = HANDOUT_WORDS[language];
    const range = { first: 0, last: this.#end };
    const shown = { systems, lines: this.lines, measures: this.#numbers, range };
    const blocks = systemBlocks(shown, { language, words, carry: layers.includes('carry') });
    let next = first;
    const drawn = systems.map(({ measures }, nth) => {
      // One region scrolls, and systems come and go: they are neither focused nor linked to here.
      const html = blocks[nth]!.replaceAll(/(?<=<figure class="system") id="[^"]*"| tabindex="0"/g, '');
      const from = next;
      next += measures;
      return { html, first: from, last: next - 1 };
    });
    return { systems: drawn, font: systems.find(({ font }) => font !== '')?.font ?? '' };
  }

  /** The measure with which this many keys have been struck from a measure on, or the last one. */
  #reach(first: number, keys: number): number {
    let [last, left] = [first, keys];
    while (last < this.#end && left > 0) {
      left -= this.#struck[last] ?? 0;
      last += 1;
    }
    return last;
  }

  /** As SVG; empty where there is no such slice any more. */
  keyboard(place: { readonly line: number; readonly slice: number }): string {
    const { slice } = place;
    const planned = this.lines[place.line];
    if (!planned?.line.slices[slice]) return '';
    const { line, plan, partName: part } = planned;
    return keyboardView(line, plan, slice, {
      language: this.#options.language,
      scale: KEYBOARD_SCALE,
      ...(part !== undefined && { part }),
    });
  }

  /** The line with no digits but the user's and the score's own, and what fingering it anew needs. */
  open(nth: number): ReadLine {
    this.#open ??= readLines(clear(this.#bytes).output, this.#reading).lines;
    return this.#open[nth]!;
  }

  get #end(): number {
    return Math.max(0, this.#numbers.length - 1);
  }

  get #numbers(): readonly string[] {
    return this.#measures[this.lines[0]?.line.part ?? 0] ?? [];
  }

  get #reading() {
    const { file, span } = this.#options;
    return { ...(file !== undefined && { file }), ...(span !== undefined && { span }) };
  }
}
