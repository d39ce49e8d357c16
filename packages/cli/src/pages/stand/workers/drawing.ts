import type { AnnotateOptions } from '@handline/core';
import { type Engraver, loadEngraver } from '../../engraver.js';
import { type HandoutOptions, handoutOf } from '../../handout/handout.js';
import { type End, serve } from './calls.js';
import { comparedWith } from './compared.js';
import { practise } from './practice.js';
import { sampleScore } from './sample.js';
import { type Run, Shown, type ShowOptions } from './shown.js';
import { whyOf } from './why.js';

/** Measures of the samples that are drawn before there is a score: a few first, so that a score need not wait long. */
const SAMPLES = [2, 6, 6];

/** The worker that draws what is marked and explains it. It keeps the score that it was shown last. */
const engraver = loadEngraver();
let shown: Shown | undefined;
let before: Shown | undefined;

const ANSWERS = {
  /** Takes a marked score in place of the last one; `isNew` where it is another piece. */
  show: ({ bytes, options, isNew, place }: Show) => {
    before = isNew ? undefined : shown;
    shown = new Shown(bytes, options);
    return { ...shown.told(), ...(place && { keyboard: shown.keyboard(place) }) };
  },
  /** Systems that were drawn before, or some from a measure on, counted from 0. */
  draw: async (ask: Run | { readonly first: number }) =>
    'last' in ask ? shown!.anew(await engraver, ask) : shown!.begun(await engraver, ask.first),
  /** Shows as after a change, for practice. */
  rehearse: async ({ bytes, options }: Pick<Show, 'bytes' | 'options'>) => {
    rehearse(await engraver, new Shown(bytes, options));
  },
  /** The keyboard at a slice, as SVG. */
  keyboard: (place: SliceOfLine) => shown!.keyboard(place),
  why: ({ line, slice, key }: { readonly line: number; readonly slice: number; readonly key: number }) =>
    whyOf(shown!, line, slice, key),
  /** Against the state before; undefined where there is none. */
  compare: () => (before ? comparedWith(shown!, before) : undefined),
  handout: async ({ bytes, marking, options }: Handout) =>
    handoutOf(bytes, marking, options, (await engraver).anew()).output,
};

/** Where the keyboard is looked at. */
export interface SliceOfLine {
  readonly line: number;
  readonly slice: number;
}

export interface Show {
  readonly bytes: Uint8Array;
  readonly options: ShowOptions;
  readonly isNew: boolean;
  /** Of which the keyboard is drawn at once. */
  readonly place?: SliceOfLine | undefined;
}

export interface Handout {
  readonly bytes: Uint8Array;
  readonly marking: AnnotateOptions;
  readonly options: HandoutOptions;
}

export type Drawing = typeof ANSWERS;

const own = globalThis as unknown as End;
serve(own, ANSWERS);
engraver.then((ready) => {
  const rounds = SAMPLES.map((measures) => () => {
    rehearse(ready, new Shown(sampleScore(measures, true), { language: 'en', layers: ['depth'] }));
  });
  return practise(own, rounds);
});

function rehearse(ready: Engraver, sample: Shown): void {
  sample.told();
  const [first] = sample.begun(ready, 0).systems;
  if (first) sample.anew(ready, { ...first, systems: 1 });
  sample.keyboard({ line: 0, slice: 0 });
}
