import type { Finger } from '#core/index.js';
import { isBlack } from '../keys.js';
import type { Breach, Moment, Played } from '../played.js';

/**
 * Rules of every texture (common practice). Keys are the right hand's view.
 *
 * - Every key that the hand can reach has a finger.
 * - A key repeated faster than 7 a second changes its finger, unless the other fingers are held down.
 * - A single finger does not slide from a white key to another one faster than 4 a second within an octave; from a black
 *   key to the neighbouring white one it may.
 * - In a connected line, 5 neither crosses another finger nor is crossed, and no long finger (2, 3, 4) crosses another:
 *   only the thumb passes. A longer finger on a black key may pass over a shorter one on the white key beside it, as in
 *   legato chromatics.
 * - In a connected line neighbouring fingers do not stretch beyond what they reach without strain, unless there is time.
 */
export function general(played: Played): Breach[] {
  return [
    ...unplayed(played),
    ...repetition(played),
    ...slides(played),
    ...crossings(played),
    ...stretches(played),
  ];
}

export const FAST_REPETITION = 1 / 7;
export const FAST_SLIDE = 1 / 4;

export function unplayed({ moments }: Played): Breach[] {
  return moments
    .filter(({ struck }) => struck.some(({ finger }) => finger === null))
    .map(({ index }) => ({ rule: 'a key within reach has no finger', at: index }));
}

interface Step {
  readonly at: number;
  readonly seconds: number;
  readonly free: number;
  readonly from: { readonly key: number; readonly finger: Finger };
  readonly to: { readonly key: number; readonly finger: Finger };
  readonly held: number;
}

/** Steps from a single key to a single key. */
export function steps({ moments }: Played): Step[] {
  return moments.flatMap((moment, at): Step[] => {
    const before: Moment | undefined = moments[at - 1];
    if (before?.struck.length !== 1 || moment.struck.length !== 1) return [];
    const [from, to] = [before.struck[0]!, moment.struck[0]!];
    if (from.finger === null || to.finger === null) return [];
    const [one, other] = [
      { key: from.key, finger: from.finger },
      { key: to.key, finger: to.finger },
    ];
    const { seconds, free } = moment;
    return [{ at, seconds, free, from: one, to: other, held: moment.held.length }];
  });
}

export function repetition(played: Played): Breach[] {
  return steps(played)
    .filter(
      ({ seconds, from, to, held }) =>
        seconds < FAST_REPETITION - 1e-6 && from.key === to.key && from.finger === to.finger && held < 4,
    )
    .map(({ at }) => ({ rule: 'one finger on a key repeated faster than 7 a second', at }));
}

export function slides(played: Played): Breach[] {
  return steps(played)
    .filter(
      ({ seconds, from, to }) =>
        seconds < FAST_SLIDE - 1e-6 &&
        from.finger === to.finger &&
        from.key !== to.key &&
        Math.abs(from.key - to.key) <= 12 &&
        !(isBlack(from.key) && Math.abs(from.key - to.key) === 1),
    )
    .map(({ at }) => ({ rule: 'one finger on two keys faster than 4 a second', at }));
}

/** Longest time and way between two keys of a connected line: beyond them the hand is lifted and set down anew. */
const CONNECTED_SECONDS = 0.6;
const CONNECTED_WAY = 12;

export function isConnected({ seconds, free, from, to }: Step): boolean {
  const way = Math.abs(to.key - from.key);
  return seconds <= CONNECTED_SECONDS && free < 0.1 && way > 0 && way <= CONNECTED_WAY;
}

export function isCrossed({ from, to }: Step): boolean {
  return from.finger !== to.finger && from.key < to.key !== from.finger < to.finger;
}

export function crossings(played: Played): Breach[] {
  return steps(played).flatMap((step) => {
    if (!isConnected(step) || !isCrossed(step)) return [];
    const fingers = [step.from.finger, step.to.finger];
    if (fingers.includes(1)) {
      return fingers.includes(5) ? [{ rule: '5 crosses the thumb or is crossed by it', at: step.at }] : [];
    }
    return passesOver(step) ? [] : [{ rule: 'a long finger crosses another', at: step.at }];
  });
}

const LENGTH: Readonly<Record<Finger, number>> = { 1: 0, 5: 1, 2: 2, 4: 3, 3: 4 };

/** A longer finger on a black key over a shorter one on the white key beside it. */
function passesOver({ from, to }: Step): boolean {
  const [longer, shorter] = LENGTH[from.finger] > LENGTH[to.finger] ? [from, to] : [to, from];
  return isBlack(longer.key) && !isBlack(shorter.key) && Math.abs(longer.key - shorter.key) <= 2;
}

/**
 * Semitones that a pair spans without strain in a chord or a connected line, medium hand: Parncutt, Sloboda, Clarke,
 * Raekallio and Desain, An ergonomic model of keyboard fingering for melodic fragments, Music Perception 14 (1997),
 * comfortable maxima, from memory; and how far it may be stretched beyond.
 */
const COMFORTABLE: Readonly<Record<string, number>> = {
  '12': 8,
  '13': 10,
  '14': 12,
  '15': 13,
  '23': 3,
  '24': 5,
  '25': 8,
  '34': 2,
  '35': 5,
  '45': 3,
};

export function comfortable(a: Finger, b: Finger): number {
  return COMFORTABLE[a < b ? `${a}${b}` : `${b}${a}`]!;
}

/** Semitones beyond comfort that editors still print: in a line, and for two long fingers down together. */
const BEYOND = 2;
const BEYOND_TOGETHER = 1;

export function isStrained(a: Finger, b: Finger, semitones: number, together: boolean): boolean {
  const beyond = together && a !== 1 && b !== 1 ? BEYOND_TOGETHER : BEYOND;
  return semitones > comfortable(a, b) + beyond;
}

function stretches(played: Played): Breach[] {
  return steps(played)
    .filter((step) => {
      const way = Math.abs(step.to.key - step.from.key);
      if (step.seconds >= FAST_SLIDE || step.free > 0 || way > 12) return false;
      if (step.from.finger === step.to.finger || isCrossed(step)) return false;
      return isStrained(step.from.finger, step.to.finger, way, false);
    })
    .map(({ at }) => ({ rule: 'a strained stretch in a fast line', at }));
}
