import { toNumber } from '../numeric/fraction.js';
import type { Draft } from '../score/draft.js';
import type { Finger, Measure, Note, Part, PrintedDigit } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import type { Moment, Strike } from './key-downs.js';
import type { Slice, SliceKey } from './line.js';
import type { SharedDigits } from './stacked-digits.js';

/** Seconds that a grace note takes from the time before its main note: about a 32nd at 90 (common practice: quick). */
export const GRACE_SECONDS = 0.08;

/** Quarter notes by which rounded durations (tuplets in coarse divisions) may overlap or leave a gap. */
const SLACK = 0.02;

/** A key on its way: who struck it, when it goes up. */
interface Down {
  readonly strike: Strike;
  readonly since: number;
  readonly grace: boolean;
  upAt: number;
}

interface SliceDraft {
  readonly moment: Moment;
  readonly seconds: number;
  readonly struck: Down[];
  readonly held: Down[];
  readonly released: number[];
  readonly free: number;
  readonly phraseStart: boolean;
}

/** What the printed digits demand; undefined where they do not count. */
export type Demands = Pick<SharedDigits, 'fingers' | 'unused'> | undefined;

/** Turns the moments of one hand into slices. */
export function slicesOf(moments: readonly Moment[], part: Part, clock: Clock, demands: Demands): Slice[] {
  const times = momentTimes(moments, clock);
  const phrases = new Phrases();
  const drafts: SliceDraft[] = [];
  let down: Down[] = [];
  let lastUp = 0;
  for (let index = 0; index < moments.length; index++) {
    const moment = moments[index]!;
    const now = times[index]!;
    const held: Down[] = [];
    const released: number[] = [];
    for (const key of down) {
      const gone = key.grace || isOver(key.strike, moment);
      if (!gone && !strikes(moment, key.strike.key)) {
        held.push(key);
        continue;
      }
      key.upAt = key.grace ? now : Math.min(clock.secondsAt(key.strike.release), now);
      lastUp = Math.max(lastUp, key.upAt);
      released.push(key.strike.key);
    }
    const struck = struckAt(moment, index, now);
    const free = index === 0 || held.length > 0 ? 0 : Math.max(now - lastUp, 0);
    drafts.push({ moment, seconds: now, struck, held, released, free, phraseStart: phrases.begins(moment) });
    down = held.length === 0 ? struck : [...held, ...struck].sort(byKey);
  }
  for (const key of down)
    key.upAt = key.grace ? (times.at(-1) ?? 0) + GRACE_SECONDS : clock.secondsAt(key.strike.release);
  const context = { part, pedal: new Pedal(part), demands };
  const slices: Slice[] = [];
  let before = times[0] ?? 0;
  for (const draft of drafts) {
    slices.push(finish(draft, slices.length, before, context));
    before = draft.seconds;
  }
  return slices;
}

function strikes(moment: Moment, key: number): boolean {
  for (const strike of moment.strikes) if (strike.key === key) return true;
  return false;
}

/** The keys that a moment strikes, up again at once until it is known when. */
function struckAt(moment: Moment, index: number, now: number): Down[] {
  const struck: Down[] = [];
  for (const strike of moment.strikes) {
    const grace = moment.order < 0 && strike.end <= moment.onset;
    struck.push({ strike, since: index, grace, upAt: now });
  }
  return struck;
}

function byKey(a: Down, b: Down): number {
  return a.strike.key - b.strike.key;
}

/** A key that ends with a grace note's onset stays down through it, unless the grace note follows it in its voice. */
function isOver(strike: Strike, moment: Moment): boolean {
  if (strike.release < moment.onset - SLACK) return true;
  if (strike.release > moment.onset + SLACK) return false;
  if (moment.order === 0) return true;
  const voices = new Set(moment.strikes.flatMap((other) => other.notes.map((note) => note.voice)));
  return strike.notes.some((note) => voices.has(note.voice));
}

/** Main notes sound at their onset; grace notes share out the time before it, half of the gap at most. */
function momentTimes(moments: readonly Moment[], clock: Clock): number[] {
  const times: number[] = [];
  let lastMain = Number.NEGATIVE_INFINITY;
  let each = 0;
  let before: number | undefined;
  for (const { onset, order } of moments) {
    const main = clock.secondsAt(onset);
    if (order < 0 && before !== onset) {
      each = Math.min(GRACE_SECONDS, Math.max(main - lastMain, 0) / (-2 * order));
    }
    if (order === 0) lastMain = main;
    times.push(main + order * each);
    before = onset;
  }
  return times;
}

/** Follows slurs, fermatas and rests, voice by voice. */
class Phrases {
  /** Voices whose phrase has ended. */
  private readonly ended = new Set<string>();
  private writtenEnd = Number.NEGATIVE_INFINITY;

  /** True where a phrase begins at this moment; takes its notes into account for the next one. */
  begins(moment: Moment): boolean {
    let begins = moment.onset > this.writtenEnd + SLACK;
    for (const { notes, end } of moment.strikes) {
      for (const note of notes) if (this.ended.delete(note.voice)) begins = true;
      this.writtenEnd = Math.max(this.writtenEnd, end);
    }
    for (const { notes } of moment.strikes) {
      for (const note of notes) {
        if (note.fermata || (note.slurStop && !note.slurStart)) this.ended.add(note.voice);
      }
    }
    return begins;
  }
}

/** Tells whether the damper pedal is down over a stretch; asked for stretches whose start never goes back. */
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

interface Context {
  readonly part: Part;
  readonly pedal: Pedal;
  readonly demands: Demands;
}

function finish(draft: SliceDraft, index: number, before: number, context: Context): Slice {
  const { moment, seconds, struck, held, released, free, phraseStart } = draft;
  const first = moment.strikes[0]?.notes[0] as Note;
  const { measures } = context.part;
  return {
    index,
    onset: first.onset,
    measure: first.measure,
    grace: moment.order < 0,
    struck: keysOf(struck, draft, index, context),
    held: keysOf(held, draft, index, context),
    released,
    seconds: seconds - before,
    free,
    phraseStart,
    onBeat: moment.order === 0 && isOnBeat(moment.onset, measures[first.measure]),
    rolled: struck.length > 1 && moment.strikes.some(isRolled),
  };
}

function isRolled({ notes }: Strike): boolean {
  return notes.some(isArpeggiated);
}

function isArpeggiated({ arpeggiate }: Note): boolean {
  return arpeggiate;
}

function keysOf(downs: readonly Down[], draft: SliceDraft, index: number, context: Context): SliceKey[] {
  const keys = new Array<SliceKey>(downs.length);
  for (let nth = 0; nth < downs.length; nth++) keys[nth] = keyOf(downs[nth]!, draft, index, context);
  return keys;
}

function keyOf(
  { strike, since, upAt }: Down,
  { moment, seconds }: SliceDraft,
  index: number,
  { pedal, demands }: Context,
): SliceKey {
  const key: Draft<SliceKey> = {
    key: strike.key,
    diatonic: (strike.notes[0] as Note).diatonic,
    notes: strike.notes.map(idOf),
    seconds: Math.max(upAt - seconds, 0),
  };
  const fixed = demands && since === index ? fixedFinger(strike.notes, demands) : undefined;
  if (fixed !== undefined) key.fixed = fixed;
  if (since !== index) key.since = since;
  if (pedal.covers(moment.onset, strike.end)) key.pedalled = true;
  return key;
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

/** A pickup measure is counted from its end, every other measure from its start. */
function isOnBeat(onset: number, measure: Measure | undefined): boolean {
  if (measure === undefined) return false;
  const missing = toNumber(measure.nominal) - toNumber(measure.length);
  const shift = missing > 0 && (measure.implicit || measure.index === 0) ? missing : 0;
  const beats = (onset - toNumber(measure.start) + shift) / toNumber(measure.beat);
  return Math.abs(beats - Math.round(beats)) < 1e-6;
}
