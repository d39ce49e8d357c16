import type { ReachAdvice, WayOut } from '../fingering/reach-advice.js';
import { includesHand, type Line, otherHand, writtenAs } from '../hands/line.js';
import { keyName, spellingOf } from '../keyboard/key-names.js';
import type { ReadResult } from '../musicxml/read/score.js';
import { quarterInMeasure } from '../score/beat.js';
import type { Place, Warning } from '../score/errors.js';
import type { Hand, Note, Part } from '../score/model.js';
import { notePlace } from '../score/place.js';
import type { LineAnalysis } from './plan.js';
import type { Selection } from './selection.js';
import type { Settings } from './settings.js';

/** A warning where there is a piano, but nothing to mark in what was chosen of it. */
export function emptySelection(
  lines: readonly Line[],
  { hands, measures }: Settings,
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
  const who = hands === 'both' ? 'the piano' : `the ${hands} hand`;
  const where = measures ? ` in measures ${measures.from}-${measures.to}` : '';
  const message = `${who} has no notes${where}; nothing is marked`;
  return [{ code: 'EMPTY_SELECTION', message, place: {} }];
}

/** Parts of two staves in which notes name no staff and one staff is therefore empty: the other hand gets all. */
export function emptyStaves(
  { score, elements }: Pick<ReadResult, 'score' | 'elements'>,
  lines: readonly Line[],
): Warning[] {
  const warnings: Warning[] = [];
  for (const [at, part] of score.parts.entries()) {
    const own = lines.filter((line) => line.part === at && line.slices.length > 0);
    if (part.staves < 2 || own.length !== 1 || part.notes.some(({ staff }) => staff > 1)) continue;
    if ((elements[at] ?? []).every((note) => note.child('staff') !== undefined)) continue;
    const message =
      `the part has ${part.staves} staves, but its notes name none, so all are on the first: the ` +
      `${otherHand(own[0]!.hand)} hand has nothing to play; give the notes of the other staff a <staff>`;
    warnings.push({ code: 'IMPERFECT', message, place: { part: part.id } });
  }
  return warnings;
}

/** Slices that the hand cannot play as written, or not with the digits that the file gives. */
export function fingeringWarnings(part: Part, { line, doubts, advice }: LineAnalysis): Warning[] {
  return doubts.map(({ slice: at, kind }): Warning => {
    const slice = line.slices[at]!;
    const measure = part.measures[slice.measure]!;
    const beat = quarterInMeasure(measure, slice.onset);
    return {
      code: kind === 'reach' ? 'UNPLAYABLE' : 'DIGIT_CONFLICT',
      message:
        kind === 'reach'
          ? `beat ${beat}: the ${line.hand} hand cannot reach all keys; ${waysOut(line, advice.find((own) => own.slice === at)!)}`
          : `beat ${beat}: the digits in the file do not fit the reach or order of the ${line.hand} hand's fingers; they are kept`,
      place: placeOf(part, slice.measure, slice.struck[0]?.notes[0]),
    };
  });
}

/** `let the left hand take C3, or roll the chord, or omit C3` */
export function waysOut({ hand, slices }: Line, { slice, left, otherHand: keys, ways }: ReachAdvice): string {
  const names = (of: readonly number[]) => listed(of, (key) => keyName(key, writtenAs(slices[slice]!, key)));
  const texts: Readonly<Record<WayOut, string>> = {
    'other-hand': `let the ${otherHand(hand)} hand take ${names(keys)}`,
    roll: 'roll the chord',
    omit: `omit ${names(left)}`,
  };
  return ways.map((way) => texts[way]).join(', or ');
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
): string {
  const names = listed(keys, (key) => {
    const note = notes.find((own) => own.key === key);
    return keyName(key, note && spellingOf(key, note.diatonic));
  });
  return `the ${takenBy} hand takes ${names} of the ${otherHand(takenBy)} hand's chord`;
}

/** Keys that a message names: no chord that somebody plays has more. */
const MOST_NAMES = 10;

function listed(keys: readonly number[], name: (key: number) => string): string {
  const first = keys.slice(0, MOST_NAMES).map(name).join(' and ');
  return keys.length > MOST_NAMES ? `${first} and ${keys.length - MOST_NAMES} more` : first;
}

function placeOf(part: Part, measure: number, note: number | undefined): Place {
  const head = note === undefined ? undefined : part.notes[note];
  return head ? notePlace(part, head) : { part: part.id, measure: part.measures[measure]!.number };
}
