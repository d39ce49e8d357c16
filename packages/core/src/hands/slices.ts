import { toNumber } from '../numeric/fraction.js';
import { isOnBeat } from '../score/beat.js';
import type { Draft } from '../score/draft.js';
import type { Finger, Note, Part, PrintedDigit } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import { type KeyDown, ROUNDING, type SliceStart } from './key-downs.js';
import { type KeyPress, keyPresses } from './key-ups.js';
import type { Slice, SliceKey } from './line.js';
import type { SharedDigits } from './stacked-digits.js';

/** Fingers that the printed digits demand; undefined where digits are ignored. */
export type Demands = Pick<SharedDigits, 'fingers' | 'unused'> | undefined;

const NONE: readonly never[] = Object.freeze([]);

interface Context {
  readonly part: Part;
  readonly pedal: Pedal;
  readonly demands: Demands;
}

/** The slices of one hand. */
export function slicesOf(starts: readonly SliceStart[], part: Part, clock: Clock, demands: Demands): Slice[] {
  const presses = keyPresses(starts, clock);
  const phrases = phraseStarts(starts);
  const context = { part, pedal: new Pedal(part), demands };
  const slices: Slice[] = [];
  let down: readonly KeyPress[] = [];
  let lastUp = 0;
  for (let index = 0; index < starts.length; index++) {
    const start = starts[index]!;
    const held: KeyPress[] = [];
    for (const press of down) {
      if (press.until > index) held.push(press);
      else lastUp = Math.max(lastUp, press.upAt);
    }
    const struck = presses[index]!;
    const first = start.keyDowns[0]!.notes[0]!;
    slices.push({
      index,
      onset: first.onset,
      measure: first.measure,
      grace: start.order < 0,
      struck: keysOf(struck, start, index, context),
      held: keysOf(held, start, index, context),
      released: releasedOf(down, index),
      seconds: index === 0 ? 0 : start.seconds - starts[index - 1]!.seconds,
      free: index === 0 || held.length > 0 ? 0 : Math.max(start.seconds - lastUp, 0),
      phraseStart: phrases[index]!,
      onBeat: start.order === 0 && isOnBeat(part.measures[first.measure]!, first.onset),
      rolled: struck.length > 1 && start.keyDowns.some(isRolled),
    });
    down = held.length === 0 ? struck : [...held, ...struck].sort(byKey);
  }
  return slices;
}

/** In an array of its very length, because one that grows takes room for sixteen more. */
function releasedOf(down: readonly KeyPress[], index: number): readonly number[] {
  let count = 0;
  for (const { until } of down) if (until <= index) count++;
  if (count === 0) return NONE;
  const released = new Array<number>(count);
  let nth = 0;
  for (const { until, keyDown } of down) if (until <= index) released[nth++] = keyDown.key;
  return released;
}

function byKey(a: KeyPress, b: KeyPress): number {
  return a.keyDown.key - b.keyDown.key;
}

/**
 * Where a phrase begins: after a rest of the hand, and where a voice goes on whose slur or fermata has ended. True or
 * false by slice.
 */
function phraseStarts(starts: readonly SliceStart[]): boolean[] {
  const found: boolean[] = [];
  const endedVoices = new Set<string>();
  let writtenEnd = Number.NEGATIVE_INFINITY;
  for (const { onset, keyDowns } of starts) {
    let begins = onset > writtenEnd + ROUNDING;
    for (const { notes, end } of keyDowns) {
      for (const { voice } of notes) if (endedVoices.delete(voice)) begins = true;
      writtenEnd = Math.max(writtenEnd, end);
    }
    for (const { notes } of keyDowns) {
      for (const note of notes) {
        if (note.fermata || (note.slurStop && !note.slurStart)) endedVoices.add(note.voice);
      }
    }
    found.push(begins);
  }
  return found;
}

/** Whether the damper pedal is down over a stretch. The stretches must be asked for in ascending order of their starts. */
class Pedal {
  private next = 0;

  constructor(private readonly part: Part) {}

  covers(from: number, to: number): boolean {
    const { pedal } = this.part;
    while (this.next < pedal.length && toNumber(pedal[this.next]!.to) <= from) this.next += 1;
    const span = pedal[this.next];
    return span !== undefined && toNumber(span.from) <= from && toNumber(span.to) >= to && to > from;
  }
}

function isRolled({ notes }: KeyDown): boolean {
  return notes.some(isArpeggiated);
}

function isArpeggiated({ arpeggiate }: Note): boolean {
  return arpeggiate;
}

function keysOf(
  presses: readonly KeyPress[],
  start: SliceStart,
  index: number,
  context: Context,
): readonly SliceKey[] {
  if (presses.length === 0) return NONE;
  const keys = new Array<SliceKey>(presses.length);
  for (let nth = 0; nth < presses.length; nth++) keys[nth] = keyOf(presses[nth]!, start, index, context);
  return keys;
}

/** A key as the slice with this index has it. */
function keyOf(
  { keyDown: { key, notes, end }, since, upAt }: KeyPress,
  { onset, seconds }: SliceStart,
  index: number,
  { pedal, demands }: Context,
): SliceKey {
  const own: Draft<SliceKey> = {
    key,
    diatonic: notes[0]!.diatonic,
    notes: notes.map(idOf),
    seconds: Math.max(upAt - seconds, 0),
  };
  const fixed = demands && since === index ? fixedFinger(notes, demands) : undefined;
  if (fixed !== undefined) own.fixed = fixed;
  if (since !== index) own.since = since;
  if (pedal.covers(onset, end)) own.pedalled = true;
  return own;
}

function idOf({ id }: Note): number {
  return id;
}

/** The first digit that is neither an alternative nor a substitution nor one of our own marks, or a shared one. */
function fixedFinger(notes: readonly Note[], demands: NonNullable<Demands>): Finger | undefined {
  for (const { id, digits } of notes) {
    const shared = demands.fingers.get(id);
    if (shared !== undefined) return shared;
    if (demands.unused.has(id)) continue;
    const plain = digits.find(isPlain);
    if (plain !== undefined) return plain.finger;
  }
  return undefined;
}

function isPlain({ alternate, substitution }: PrintedDigit): boolean {
  return !alternate && !substitution;
}
