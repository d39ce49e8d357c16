import { handModel } from '#core/anatomy/hand.js';
import type { Term } from '#core/fingering/cost/terms/term.js';
import { OFFSETS, TERMS } from '#core/fingering/cost/terms/terms.js';
import { WEIGHTS } from '#core/fingering/cost/weights.js';
import { surroundingsOf } from '#core/fingering/view/surroundings.js';
import { viewLine } from '#core/fingering/view/view.js';
import type { Criterion } from '#core/options/options.js';
import type { Finger, Hand } from '#core/score/model.js';
import { type Happening, lineOf } from '../lines.js';

/** Blocks of a term with the values of each dimension in words, the last dimension running fastest; stated by the tests. */
export type Layout = Readonly<Record<string, readonly (readonly string[])[]>>;

export const FINGER = ['1', '2', '3', '4', '5'];
export const COLOUR = ['white', 'black'];
export const DIRECTION = ['down', 'same', 'up'];
export const STRIDE = ['leap down', 'third down', 'step down', 'same', 'step up', 'third up', 'leap up'];
export const PACE = ['fast', 'moderate', 'slow'];
/** Semitones, up positive; wider ones count as 15. */
export const INTERVAL = [
  ...Array.from({ length: 31 }, (_, nth) => `${nth - 15}`),
  'augmented second down',
  'augmented second up',
];

/** One onset: struck keys, or all of it. Keys hold for `holds` more onsets; 0.3 seconds from the one before. */
export type Onset =
  | number
  | readonly number[]
  | (Partial<Happening> & { readonly keys: readonly number[]; readonly holds?: number });

function happening(onset: Onset): Happening {
  const given =
    typeof onset === 'number' ? { keys: [onset] } : Array.isArray(onset) ? { keys: onset } : onset;
  const { keys, holds = 0, ...rest } = given as { keys: readonly number[]; holds?: number };
  const presses = keys.map((key) => ({ key, holds, pedalled: false }));
  return { presses, seconds: 0.3, rest: 0, phraseStart: false, grace: false, onBeat: false, ...rest };
}

/** A line with its fingers: by onset the digits of all keys down, held ones as well, from the lowest key of the right hand. */
export interface Case {
  readonly onsets: readonly Onset[];
  readonly digits: string;
  /** Keys are the right hand's; for the left hand they are mirrored about D. */
  readonly hand?: Hand;
  readonly span?: string;
}

/** A case as the terms see it. */
export function seen({ onsets, digits, hand = 'right', span = 'medium' }: Case) {
  const model = handModel(span);
  const views = viewLine(lineOf(hand, onsets.map(happening)), model, false);
  const fingers = digits.split(' ').map((own) => [...own].map((digit) => Number(digit) as Finger));
  return { model, views, fingers };
}

/** What a term owes for the last onset with digits, feature by feature. */
function features(term: Term, own: Case): Map<number, number> {
  const { model, views, fingers } = seen(own);
  const surroundings = surroundingsOf(views);
  const at = fingers.length - 1;
  const found = new Map<number, number>();
  const sink = {
    add: (feature: number, value: number) => void found.set(feature, (found.get(feature) ?? 0) + value),
  };
  const [first, before, view] = [views[at - 2], views[at - 1], views[at]!];
  term.slice?.(view, fingers[at]!, surroundings[at]!, sink, model);
  if (before) term.pair?.(before, view, model)?.count(fingers[at - 1]!, fingers[at]!, sink);
  if (first)
    term.triple?.(first, before!, view)?.count(fingers[at - 2]!, fingers[at - 1]!, fingers[at]!, sink);
  return found;
}

/** The same in words, `block: value value ...`, with four decimal places. */
export function counted(layout: Layout, term: Term, own: Case): Record<string, number> {
  const names = Object.entries(layout).flatMap(([block, dimensions]) =>
    dimensions
      .reduce<string[]>(
        (all, values) => all.flatMap((name) => values.map((value) => `${name} ${value}`)),
        [''],
      )
      .map((name) => `${block}:${name}`),
  );
  const told = [...features(term, own)].map(([feature, value]) => [names[feature], Number(value.toFixed(4))]);
  return Object.fromEntries(told) as Record<string, number>;
}

/** What the last onset costs by this term, mm equivalents with two decimal places. */
export function costs(term: Term, own: Case, by: Criterion = 'usage'): number {
  const base = OFFSETS[TERMS.indexOf(term)]!;
  let sum = 0;
  for (const [feature, value] of features(term, own)) sum += WEIGHTS[by][base + feature]! * value;
  return Number(sum.toFixed(2));
}
