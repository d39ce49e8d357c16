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

/** What the drawing depends on besides the score. */
export type ShowOptions = Pick<AnnotateOptions, 'file' | 'span'> &
  Required<Pick<AnnotateOptions, 'language' | 'layers'>>;

/** Measures that are engraved at once: few first, so that something is there soon. */
const FIRST = 10;
const FURTHER = 20;
/** mm on the screen for a mm of the keyboard. */
const KEYBOARD_SCALE = 0.26;

/** One hand, as the page needs it to find notes. */
export interface ToldLine {
  readonly part: string;
  readonly hand: 'right' | 'left';
  /** By slice and key: ids of the note heads, as in the music's `data-note`. */
  readonly ids: readonly (readonly (readonly string[])[])[];
  /** By slice and key: place on the staff as written, 7 x octave + step, where the line says. */
  readonly steps: readonly (readonly (number | undefined)[])[];
}

/** A few systems with their ribbons. */
export interface DrawnSection {
  readonly html: string;
  readonly font: string;
  /** Its measures, counted from 0. */
  readonly first: number;
  readonly last: number;
}

/** A marked score with the plan of what is printed in it. */
export class Shown {
  readonly lines: readonly PlannedLine[];
  readonly #options: ShowOptions;
  readonly #bytes: Uint8Array;
  readonly #text: string;
  readonly #title: string | undefined;
  readonly #measures: readonly (readonly string[])[];
  #open: readonly ReadLine[] | undefined;

  constructor(bytes: Uint8Array, options: ShowOptions) {
    this.#bytes = bytes;
    this.#options = options;
    this.lines = planDigits(bytes, this.#reading).lines;
    const { text, title, measures } = labelNotes(bytes);
    // The name before every section would say the same of all.
    this.#text =
      measures.length === 1 ? text.replace(/(<part-name)[^>]*>[^<]*(?=<\/part-name>)/, '$1>') : text;
    this.#title = title;
    this.#measures = measures;
  }

  /** What the page needs to know. */
  told() {
    return {
      title: this.#title,
      measures: this.#numbers.length,
      lines: this.lines.map(
        ({ partId, line }): ToldLine => ({
          part: partId,
          hand: line.hand,
          ids: line.slices.map(({ struck }) =>
            struck.map(({ notes }) => notes.map((note) => `note-${line.part}-${note}`)),
          ),
          steps: line.slices.map(({ struck }) => struck.map(({ diatonic }) => diatonic)),
        }),
      ),
    };
  }

  /** Whole systems from a measure on: all up to `to`, or as many as a few measures fill. */
  drawn(engraver: Engraver, from: number, to?: number): DrawnSection {
    const end = this.#numbers.length - 1;
    const last = Math.min(end, to ?? from + (from === 0 ? FIRST : FURTHER) - 1);
    const systems = engraver.systems(this.#text, { first: from, last });
    // The last line is full only where the music ends, or where it was full before.
    const kept = to === undefined && last < end && systems.length > 1 ? systems.slice(0, -1) : systems;
    const shownTo = kept === systems ? last : from + measuresOf(kept) - 1;
    const drawn = {
      systems: kept,
      lines: this.lines,
      measures: this.#numbers,
      range: { first: 0, last: end },
    };
    const { language, layers } = this.#options;
    const words = HANDOUT_WORDS[language];
    const blocks = systemBlocks(drawn, { language, words, carry: layers.includes('carry') });
    // One region scrolls, and sections come and go: systems are neither focused nor linked to here.
    const html = blocks.join('').replaceAll(/(?<=<figure class="system") id="[^"]*"| tabindex="0"/g, '');
    return { html, font: systems.find(({ font }) => font !== '')?.font ?? '', first: from, last: shownTo };
  }

  keyboard(nth: number, slice: number): string {
    const { line, plan } = this.lines[nth]!;
    return keyboardView(line, plan, slice, { language: this.#options.language, scale: KEYBOARD_SCALE });
  }

  /** The line with no digits but the user's and the score's own, and what fingering it anew needs. */
  open(nth: number): ReadLine {
    this.#open ??= readLines(clear(this.#bytes).output, this.#reading).lines;
    return this.#open[nth]!;
  }

  get #numbers(): readonly string[] {
    return this.#measures[this.lines[0]?.line.part ?? 0] ?? [];
  }

  get #reading() {
    const { file, span } = this.#options;
    return { ...(file !== undefined && { file }), ...(span !== undefined && { span }) };
  }
}

function measuresOf(systems: readonly System[]): number {
  return systems.reduce((sum, { measures }) => sum + measures, 0);
}
