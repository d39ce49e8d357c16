import { annotate, readLines } from '@handline/core';
import type { Line } from '#core/hands/line.js';
import { toNumber } from '#core/numeric/fraction.js';
import type { Density } from '#core/options/options.js';
import type { SliceReport } from '#core/options/report.js';

/*
 * What a sceptical reader of the printed cues would check, on the report alone and on what each hand plays: nothing of the
 * code that plans cues or motion is used. All rules: common practice, as docs/cues.md states them.
 */

export const LAYERS = ['depth', 'crossing', 'carry', 'contour', 'roll'] as const;

/** One hand in print: what it plays, and what is said at each onset. */
export interface Printed {
  readonly line: Line;
  readonly slices: readonly SliceReport[];
  readonly said: readonly (readonly string[])[];
  readonly where: (at: number) => string;
}

/** Texts of a score that break a rule, and into `seen` every text. */
export function audit(
  input: Uint8Array | string,
  name: string,
  density: Density,
  seen: Set<string>,
): string[] {
  const lines = readLines(input).lines;
  const all = annotate(input, { existing: 'ignore', density, language: 'en', layers: LAYERS }).report.lines;
  const hands = all.map(({ slices, hand, part }): Printed => {
    const line = lines.find((own) => own.partId === part && own.line.hand === hand)!.line;
    const where = (at: number) =>
      `${name} ${hand} m. ${slices[at]!.measure} beat ${slices[at]!.beat} ${density}`;
    return { line, slices, said: slices.map(({ cue }) => cue?.split(', ') ?? []), where };
  });
  const faults: string[] = [];
  for (const hand of hands) {
    for (const text of hand.said.flat()) seen.add(text);
    const other = hands.find(({ line }) => line.part === hand.line.part && line.hand !== hand.line.hand);
    for (const [rule, breaks] of Object.entries(RULES)) {
      for (let at = 0; at < hand.slices.length; at++)
        if (breaks(hand, at, other)) faults.push(`${rule}: ${hand.where(at)}`);
    }
  }
  return faults;
}

type Rule = (hand: Printed, at: number, other: Printed | undefined) => boolean;

const says = ({ said }: Printed, at: number, ...texts: readonly string[]): boolean =>
  texts.some((text) => said[at]?.includes(text));
const keysAt = ({ slices }: Printed, at: number): string => slices[at]?.keys.join('+') ?? '';
const centre = ({ slices }: Printed, at: number): number => {
  const { keys } = slices[at]!;
  return keys.reduce((sum, key) => sum + key, 0) / keys.length;
};
const isFresh = ({ line }: Printed, at: number): boolean =>
  at === 0 || line.slices[at]!.phraseStart || line.slices[at]!.free >= 0.15;

interface Down {
  readonly key: number;
  readonly finger: number;
  readonly struck: boolean;
}

/** Fingers on keys, held ones included. */
function down({ line, slices }: Printed, at: number): Down[] {
  const { keys, fingers } = slices[at]!;
  const struck = keys.map((key, nth) => ({ key, finger: fingers[nth] ?? 0, struck: true }));
  const held = line.slices[at]!.held.map(({ key, since }) => {
    const from = slices[since!]!;
    return { key, finger: from.fingers[from.keys.indexOf(key)] ?? 0, struck: false };
  });
  return [...struck, ...held].filter(({ finger }) => finger > 0);
}

/** The plain rule: the thumb under 2, 3 or 4, or one of these over it, connected, at most a fifth apart. */
function crossingInto(hand: Printed, at: number): string | undefined {
  if (at === 0) return undefined;
  const { free, phraseStart, held } = hand.line.slices[at]!;
  if ((free >= 0.1 || phraseStart) && held.length === 0) return undefined;
  const side = hand.line.hand === 'right' ? 1 : -1;
  const isBeyond = (thumb: Down, { finger, key }: Down): boolean =>
    finger >= 2 && finger <= 4 && (thumb.key - key) * side > 0 && Math.abs(thumb.key - key) <= 7;
  const [before, now] = [down(hand, at - 1), down(hand, at)];
  const isThumb = ({ finger }: Down): boolean => finger === 1;
  const isPassed = now.some((own) => isThumb(own) && own.struck && before.some((f) => isBeyond(own, f)));
  if (isPassed) return 'thumb';
  const isOver = before.some((own) => isThumb(own) && now.some((f) => f.struck && isBeyond(own, f)));
  return isOver ? 'over' : undefined;
}

/** Of each crossing the short text, and the fuller one. */
const CROSSINGS: Readonly<Record<string, readonly string[]>> = {
  thumb: ['thumb', 'thumb passes'],
  over: ['over', 'over the thumb'],
};
const ALL_CROSSINGS = Object.values(CROSSINGS).flat();

/** A scale begins here: so many single notes one way by steps, eight at least; else 0. */
function scaleFrom(hand: Printed, start: number): number {
  const step = (at: number): number => {
    const [now, before] = [hand.slices[at], hand.slices[at - 1]];
    if (!now || before?.keys.length !== 1 || now.keys.length !== 1 || isFresh(hand, at)) return 0;
    const by = now.keys[0]! - before.keys[0]!;
    return Math.abs(by) <= 3 ? by : 0;
  };
  if (step(start + 1) === 0 || step(start) * step(start + 1) > 0) return 0;
  let end = start + 1;
  while (step(end) * step(start + 1) > 0) end++;
  return end - start >= 8 ? end - start : 0;
}

function isUneven(hand: Printed, start: number): boolean {
  const crossings: number[] = [];
  for (let at = start + 1; at < start + scaleFrom(hand, start); at++)
    if (crossingInto(hand, at)) crossings.push(at);
  const told = crossings.filter((at) => says(hand, at, ...ALL_CROSSINGS));
  if (told.length === 0 || told.length === crossings.length) return false;
  // Too close for a text each.
  return !crossings.some((at, nth) => nth > 0 && at - crossings[nth - 1]! < 3);
}

/** Keys to and fro, and of two notes one comes back two notes on, or both are an octave, up to the fifth. */
function isRotation(hand: Printed, start: number): boolean {
  const five = [0, 1, 2, 3, 4].map((nth) => start + nth);
  if (hand.slices[start + 4] === undefined) return false;
  const moves = five.slice(1).map((at) => centre(hand, at) - centre(hand, at - 1));
  if (!moves.every((by, nth) => nth === 0 || by * moves[nth - 1]! < 0)) return false;
  const comesBack = (at: number): boolean =>
    [at - 2, at + 2].some((other) => hand.slices[other] && keysAt(hand, other) === keysAt(hand, at));
  const isPedal = five.slice(1).every((at) => comesBack(at) || comesBack(at - 1));
  const isOctave = (at: number): boolean =>
    hand.slices[at]?.keys.length === 1 &&
    hand.slices[at - 1]?.keys.length === 1 &&
    Math.abs(hand.slices[at]!.keys[0]! - hand.slices[at - 1]!.keys[0]!) === 12;
  const areOctaves = five.slice(1).every((at) => isOctave(at) || (isOctave(at - 1) && isOctave(at + 1)));
  return isPedal || areOctaves;
}

/** Whether the other hand sounds at an onset of this one, with all its keys on the wrong side. */
function isAcross(hand: Printed, at: number, other: Printed | undefined): boolean {
  const onset = toNumber(hand.line.slices[at]!.onset);
  const last = other?.line.slices.findLastIndex((own) => toNumber(own.onset) <= onset) ?? -1;
  if (last < 0) return false;
  const slice = other!.line.slices[last]!;
  // Keys still down at the other hand's next onset are held there: seconds tell, quarters do not with a changing tempo.
  const next = other!.line.slices[last + 1];
  const apart = onset - toNumber(slice.onset);
  const share = next ? apart / (toNumber(next.onset) - toNumber(slice.onset)) : 0;
  const since = share * (next?.seconds ?? 0);
  const sounding = [...slice.struck, ...slice.held].filter(({ seconds }) => seconds > since - 0.01);
  const mine = down(hand, at).map(({ key }) => key);
  const theirs = sounding.map(({ key }) => key);
  if (theirs.length === 0) return false;
  return hand.line.hand === 'right'
    ? Math.max(...mine) < Math.min(...theirs)
    : Math.min(...mine) > Math.max(...theirs);
}

const RULES: Readonly<Record<string, Rule>> = {
  'a crossing that the plain rule does not confirm': (hand, at) =>
    says(hand, at, ...ALL_CROSSINGS) && !says(hand, at, ...(CROSSINGS[crossingInto(hand, at) ?? ''] ?? [])),
  'a scale marked unevenly': (hand, at) => scaleFrom(hand, at) > 0 && isUneven(hand, at),
  'rotation of no trill, tremolo, Alberti bass or broken octave': (hand, at) =>
    says(hand, at, 'rotate') && !isRotation(hand, at),
  'a fresh turn on a repeated key': (hand, at) =>
    says(hand, at, 'turn afresh') && keysAt(hand, at) === keysAt(hand, at - 1),
  'the wrist rises in a trill, over one finger or before no thumb': (hand, at) => {
    if (!says(hand, at, 'wrist rises')) return false;
    let end = at;
    while (hand.slices[end] && !hand.slices[end]!.fingers.includes(1)) end++;
    const isTrill = Array.from({ length: end - at }, (_, nth) => at + nth).some(
      (own) =>
        own - at >= 3 &&
        keysAt(hand, own) === keysAt(hand, own - 2) &&
        keysAt(hand, own - 1) === keysAt(hand, own - 3),
    );
    return isTrill || end - at < 2 || hand.slices[end] === undefined;
  },
  'the arm told to travel where it does not set out': (hand, at) => {
    const way = says(hand, at, 'then right') ? 1 : says(hand, at, 'then left') ? -1 : 0;
    if (way === 0) return false;
    const [before, now, next] = [at - 1, at, at + 1].map((own) => hand.slices[own]?.arm);
    const goesOn = before !== undefined && !isFresh(hand, at) && (now! - before) * way > 0.01;
    return next === undefined || (next - now!) * way <= 0 || goesOn;
  },
  'a hand over the other that does not sound on its far side': (hand, at, other) =>
    says(hand, at, 'hand over', 'hand under') && !isAcross(hand, at, other),
  'a cue in or out where the hand comes of itself, or the plan goes elsewhere': (hand, at) => {
    const way = says(hand, at, ...IN) ? 1 : says(hand, at, ...OUT) ? -1 : 0;
    if (way === 0) return false;
    const now = hand.slices[at]!.depthChange;
    const next = hand.slices[at + 1] && !isFresh(hand, at + 1) ? hand.slices[at + 1]!.depthChange : 0;
    return isFresh(hand, at) || (now === 0 ? next : now) * way <= 0;
  },
  'a turn told of in slow notes': (hand, at) =>
    says(hand, at, 'to the thumb', 'away from it', 'away from the thumb', 'turn afresh') &&
    hand.line.slices[at]!.seconds > 0.75,
  'two cues in or out at one note': (hand, at) =>
    (hand.said[at] ?? []).filter((text) => IN.includes(text) || OUT.includes(text)).length > 1,
};

const full = (texts: readonly string[]): readonly string[] =>
  texts.flatMap((text) => [text, `forearm ${text}`]);
const IN = full(['in', 'far in', 'further in', 'lean', 'leans in']);
const OUT = full(['out', 'far out', 'further out']);
