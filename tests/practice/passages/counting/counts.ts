import type { Finger } from '#core/index.js';
import { isBlack } from '../keys.js';
import type { Moment, Played } from '../played.js';
import { isTriad } from '../rules/chord-rules.js';
import { FAST_REPETITION, FAST_SLIDE, isConnected, isCrossed, steps } from '../rules/general-rules.js';
import { mostFrequent } from '../rules/position-rules.js';

/** How often a rule of practice applies in music, and how often it is broken. */
export interface Count {
  readonly occasions: number;
  readonly breaches: number;
}

/** Aims in breaches per 1,000 occasions, on scores of every kind. */
export const AIMS = {
  'an octave as a chord by other fingers than 1 5 or 1 4': 10,
  'a triad in block form without 1 and 4 or 5 outside': 100,
  'a bar unlike most bars of the same keys and rhythm': 50,
  'one finger on a key repeated faster than 7 a second': 120,
  '5 crosses the thumb or is crossed by it': 0.3,
  'a long finger crosses a long one': 0.7,
  'one finger on two keys faster than 4 a second': 1,
} as const;

export type Rule = keyof typeof AIMS;
export const RULES = Object.keys(AIMS) as Rule[];

type Counts = Readonly<Record<Rule, Count>>;

/** Occasions and breaches of every rule in one line. */
export function countBreaches(played: Played): Counts {
  return {
    'an octave as a chord by other fingers than 1 5 or 1 4': octaveChords(played),
    'a triad in block form without 1 and 4 or 5 outside': blockTriads(played),
    'a bar unlike most bars of the same keys and rhythm': equalBars(played),
    'one finger on a key repeated faster than 7 a second': repetitions(played),
    '5 crosses the thumb or is crossed by it': crossings(
      played,
      (a, b) => a + b === 6 && a !== b && a * b === 5,
    ),
    'a long finger crosses a long one': crossings(played, (a, b) => a > 1 && b > 1),
    'one finger on two keys faster than 4 a second': slides(played),
  };
}

/** The sums over lines. */
export function sumCounts(all: readonly Counts[]): Counts {
  const sum = (rule: Rule): Count => ({
    occasions: all.reduce((total, own) => total + own[rule].occasions, 0),
    breaches: all.reduce((total, own) => total + own[rule].breaches, 0),
  });
  return Object.fromEntries(RULES.map((rule) => [rule, sum(rule)])) as Counts;
}

export function perThousand({ occasions, breaches }: Count): number {
  return occasions === 0 ? 0 : (1000 * breaches) / occasions;
}

function ofChords(
  { moments }: Played,
  applies: (keys: number[]) => boolean,
  fits: (outer: string) => boolean,
): Count {
  const chords = moments.filter(
    ({ struck, held }) =>
      held.length === 0 &&
      struck.every(({ finger }) => finger !== null) &&
      applies(struck.map(({ key }) => key)),
  );
  const breaches = chords.filter(({ struck }) => !fits(`${struck[0]!.finger}${struck.at(-1)!.finger}`));
  return { occasions: chords.length, breaches: breaches.length };
}

const OUTSIDE = (outer: string): boolean => outer === '15' || outer === '14';

function octaveChords(played: Played): Count {
  return ofChords(played, (keys) => keys.length > 1 && keys.at(-1)! - keys[0]! === 12, OUTSIDE);
}

function blockTriads(played: Played): Count {
  return ofChords(played, isTriad, OUTSIDE);
}

function repetitions(played: Played): Count {
  const all = steps(played).filter(
    ({ seconds, from, to }) => seconds < FAST_REPETITION && from.key === to.key,
  );
  const breaches = all.filter(({ from, to }) => from.finger === to.finger);
  return { occasions: all.length, breaches: breaches.length };
}

function crossings(played: Played, pair: (a: Finger, b: Finger) => boolean): Count {
  const all = steps(played).filter(isConnected);
  const breaches = all.filter((step) => isCrossed(step) && pair(step.from.finger, step.to.finger));
  return { occasions: all.length, breaches: breaches.length };
}

function slides(played: Played): Count {
  const all = steps(played).filter(({ seconds, from, to }) => seconds < FAST_SLIDE && from.key !== to.key);
  const breaches = all.filter(
    ({ from, to }) =>
      from.finger === to.finger &&
      Math.abs(from.key - to.key) <= 12 &&
      !(isBlack(from.key) && Math.abs(from.key - to.key) === 1),
  );
  return { occasions: all.length, breaches: breaches.length };
}

/** Bars of fewer onsets say nothing. */
const LEAST_ONSETS = 2;

/** Bars with keys and rhythm of another bar: those that are not fingered as most of their like. */
function equalBars({ line, moments }: Played): Count {
  const bars = new Map<number, Moment[]>();
  for (const moment of moments) bars.set(moment.measure, [...(bars.get(moment.measure) ?? []), moment]);
  const groups = new Map<string, string[]>();
  for (const own of bars.values()) {
    if (own.length < LEAST_ONSETS) continue;
    const onset = ({ index }: Moment) => {
      const [first, here] = [line.slices[own[0]!.index]!.onset, line.slices[index]!.onset];
      return (here.num / here.den - first.num / first.den).toFixed(4);
    };
    const keys = own
      .map((moment) => `${onset(moment)}:${moment.struck.map(({ key }) => key).join('+')}`)
      .join(' ');
    const digits = own.map(({ struck }) => struck.map(({ finger }) => finger).join('+')).join(' ');
    groups.set(keys, [...(groups.get(keys) ?? []), digits]);
  }
  let [occasions, breaches] = [0, 0];
  for (const digits of groups.values()) {
    if (digits.length < 2) continue;
    const usual = mostFrequent(digits);
    occasions += digits.length;
    breaches += digits.filter((own) => own !== usual).length;
  }
  return { occasions, breaches };
}
