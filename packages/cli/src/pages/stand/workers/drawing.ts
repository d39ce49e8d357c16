import type { AnnotateOptions } from '@handline/core';
import { loadEngraver } from '../../engraver.js';
import { type HandoutOptions, handoutOf } from '../../handout/handout.js';
import { type End, serve } from './calls.js';
import { comparedWith } from './compared.js';
import { Shown, type ShowOptions } from './shown.js';
import { whyOf } from './why.js';

/** The worker that draws what is marked and explains it. It keeps the score that it was shown last. */
const engraver = loadEngraver();
let shown: Shown | undefined;
let before: Shown | undefined;

const ANSWERS = {
  /** Takes a marked score in place of the last one; `isNew` where it is another piece. */
  show: ({ bytes, options, isNew }: Show) => {
    before = isNew ? undefined : shown;
    shown = new Shown(bytes, options);
    return shown.told();
  },
  /** Some systems from a measure on, counted from 0; up to `to` where that is given. */
  draw: async ({ from, to }: { readonly from: number; readonly to?: number }) =>
    shown!.drawn(await engraver, from, to),
  /** The keyboard at a slice, as SVG. */
  keyboard: ({ line, slice }: { readonly line: number; readonly slice: number }) =>
    shown!.keyboard(line, slice),
  why: ({ line, slice, key }: { readonly line: number; readonly slice: number; readonly key: number }) =>
    whyOf(shown!, line, slice, key),
  /** Against the state before; undefined where there is none. */
  compare: () => (before ? comparedWith(shown!, before) : undefined),
  handout: async ({ bytes, marking, options }: Handout) =>
    handoutOf(bytes, marking, options, (await engraver).anew()).output,
};

export interface Show {
  readonly bytes: Uint8Array;
  readonly options: ShowOptions;
  readonly isNew: boolean;
}

export interface Handout {
  readonly bytes: Uint8Array;
  readonly marking: AnnotateOptions;
  readonly options: HandoutOptions;
}

export type Drawing = typeof ANSWERS;

serve(globalThis as unknown as End, ANSWERS);
