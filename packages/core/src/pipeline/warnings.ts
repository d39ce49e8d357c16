import { LANGUAGES } from '../cues/wording.js';
import type { ReachAdvice } from '../fingering/reach-advice.js';
import { includesHand, type Line, otherHand, type Slice, writtenAs } from '../hands/line.js';
import { keyName, type Spelling, spellingFor, spellingOf } from '../keyboard/key-names.js';
import { beatText } from '../messages/beat.js';
import { fill } from '../messages/fill.js';
import { MESSAGES } from '../messages/messages.js';
import type { MessageWords } from '../messages/words.js';
import type { ReadResult } from '../musicxml/read/score.js';
import type { Language } from '../options/options.js';
import { beatInMeasure } from '../score/beat.js';
import type { Place, Warning } from '../score/errors.js';
import type { Hand, Note, Part } from '../score/model.js';
import { notePlace } from '../score/place.js';
import type { LineAnalysis } from './plan.js';
import type { Selection } from './selection.js';
import type { Settings } from './settings.js';

/** A warning where there is a piano, but nothing to mark in what was chosen of it. */
export function emptySelection(
  lines: readonly Line[],
  { hands, measures, messages }: Settings,
  select: (part: number) => Selection,
  found: readonly Warning[],
): Warning[] {
  if (found.some(({ code }) => code === 'NO_PIANO')) return [];
  const holds = lines.some((line) => {
    if (!includesHand(hands, line.hand)) return false;
    const chosen = select(line.part);
    return line.slices.some(({ measure }) => chosen(measure));
  });
  if (holds) return [];
  const words = MESSAGES[messages];
  const who = hands === 'both' ? words.piano : words.hands[hands];
  const message = fill(measures ? words.nothingInMeasures : words.nothingThere, { who, ...measures });
  return [{ code: 'EMPTY_SELECTION', message, place: {} }];
}

/** Parts of two staves in which notes name no staff and one staff is therefore empty: the other hand gets all. */
export function emptyStaves(
  { score, elements }: Pick<ReadResult, 'score' | 'elements'>,
  lines: readonly Line[],
  { messages }: Settings,
): Warning[] {
  const { emptyStaff, hands } = MESSAGES[messages];
  const warnings: Warning[] = [];
  for (const [at, part] of score.parts.entries()) {
    const own = lines.filter((line) => line.part === at && line.slices.length > 0);
    if (part.staves < 2 || own.length !== 1 || part.notes.some(({ staff }) => staff > 1)) continue;
    if ((elements[at] ?? []).every((note) => note.child('staff') !== undefined)) continue;
    const message = fill(emptyStaff, { staves: part.staves, hand: hands[otherHand(own[0]!.hand)] });
    warnings.push({ code: 'IMPERFECT', message, place: { part: part.id } });
  }
  return warnings;
}

/** Slices that the hand cannot play as written, or not with the digits that the file gives. */
export function fingeringWarnings(
  part: Part,
  { line, doubts, advice }: LineAnalysis,
  { messages }: Settings,
): Warning[] {
  const words = MESSAGES[messages];
  const hand = words.hands[line.hand];
  return doubts.map(({ slice: at, kind }): Warning => {
    const slice = line.slices[at]!;
    const measure = part.measures[slice.measure]!;
    const beat = beatText(beatInMeasure(measure, slice.onset), messages);
    return {
      code: kind === 'reach' ? 'UNPLAYABLE' : 'DIGIT_CONFLICT',
      message:
        kind === 'reach'
          ? fill(words.unreachable, { beat, hand, ways: waysOut(line, adviceAt(advice, at), messages) })
          : fill(words.conflict, { beat, hand, digits: digitsAt(line, slice, messages) }),
      place: placeOf(part, slice.measure, slice.struck[0]?.notes[0]),
    };
  });
}

/** `5 on C5, 4 on G5`: the digits in print on the keys that are struck or held there. */
function digitsAt({ slices }: Line, slice: Slice, language: Language): string {
  const held = slice.held.map(
    (own) => slices[own.since ?? slice.index]!.struck.find(({ key }) => key === own.key) ?? own,
  );
  return [...slice.struck, ...held]
    .filter(({ fixed }) => fixed !== undefined)
    .toSorted((a, b) => a.key - b.key)
    .map(({ key, fixed }) =>
      fill(MESSAGES[language].digit, { finger: fixed!, key: named(key, writtenAs(slice, key), language) }),
    )
    .join(', ');
}

/** `let the left hand take C3, or roll the chord, or omit C3`; without octaves, of two keys of one name `the upper C` */
export function waysOut(
  { hand, slices }: Line,
  { slice, left, otherHand: keys, ways }: ReachAdvice,
  language: Language,
): string {
  const words = MESSAGES[language];
  const own = slices[slice]!;
  const nameOf = (key: number) => named(key, writtenAs(own, key), language);
  const chord = [...own.struck, ...own.held].map(({ key }) => ({ key, name: nameOf(key) }));
  const name = (key: number) => {
    const like = chord.filter((other) => other.name === nameOf(key)).map((other) => other.key);
    if (like.length < 2) return nameOf(key);
    if (key === Math.max(...like)) return fill(words.upper, { key: nameOf(key) });
    return key === Math.min(...like) ? fill(words.lower, { key: nameOf(key) }) : nameOf(key);
  };
  return ways
    .map((way, nth) => {
      const or = way === 'omit' ? words.orOmit : words.or;
      const told = fill(words.ways[way], {
        hand: words.hands[otherHand(hand)],
        keys: listed(way === 'omit' ? left : keys, name, words),
      });
      return nth > 0 ? or + told : told;
    })
    .join('');
}

function adviceAt(advice: readonly ReachAdvice[], slice: number): ReachAdvice {
  return advice.find((own) => own.slice === slice)!;
}

/** In English with its octave; elsewhere without, since octaves are numbered in several ways. */
function named(key: number, spelling: Spelling | undefined, language: Language): string {
  if (language === 'en') return keyName(key, spelling);
  const { step, alter } = spellingFor(key, spelling);
  return LANGUAGES[language].reasons.noteName(step, alter);
}

/**
 * `the left hand takes C3 of the right hand's chord`
 *
 * @param notes what it takes, each key named as one of them is written
 */
export function whoTakes(
  takenBy: Hand,
  keys: readonly number[],
  notes: readonly Pick<Note, 'key' | 'diatonic'>[],
  language: Language,
): string {
  const words = MESSAGES[language];
  const name = (key: number) => {
    const note = notes.find((own) => own.key === key);
    return named(key, note && spellingOf(key, note.diatonic), language);
  };
  return fill(words.takes, {
    hand: words.hands[takenBy],
    keys: listed(keys, name, words),
    other: words.hands[otherHand(takenBy)],
  });
}

/** Keys that a message names: no chord that somebody plays has more. */
const MOST_NAMES = 10;

function listed(keys: readonly number[], name: (key: number) => string, { and, more }: MessageWords): string {
  const first = keys.slice(0, MOST_NAMES).map(name).join(and);
  return keys.length > MOST_NAMES ? first + fill(more, { count: keys.length - MOST_NAMES }) : first;
}

function placeOf(part: Part, measure: number, note: number | undefined): Place {
  const head = note === undefined ? undefined : part.notes[note];
  return head ? notePlace(part, head) : { part: part.id, measure: part.measures[measure]!.number };
}
