import type { XmlElement } from '../../xml/tree.js';
import { firstFrom, headsOf, type Moment, type PartHeads } from '../record/heads.js';
import { type Reach, TICKS } from '../record/reach.js';
import { onlyIn } from './match.js';
import type { FoundToken } from './scan.js';

/** Programs round times to ticks of their own. */
const ROUNDING = 2;
/** Of about a measure each, in ticks. */
const TWO_MEASURES = 8 * TICKS;

/** The dashes in a direction that holds nothing else. */
export function onlyDashes(direction: XmlElement | undefined): XmlElement | undefined {
  const [first, second] = direction === undefined ? [] : onlyIn(direction, 'dashes');
  return second === undefined ? first : undefined;
}

/** True where a direction holds nothing but the end of dashes that an instruction tells of: `start-6`. */
export function saysDashes(direction: XmlElement | undefined, text: string): boolean {
  const dashes = onlyDashes(direction);
  return dashes !== undefined && `${dashes.attribute('type')}-${dashes.attribute('number')}` === text;
}

interface End extends Moment {
  readonly direction: XmlElement;
  readonly number: string;
  used?: boolean;
}

type Ends = ReadonlyMap<string, readonly End[]>;

/**
 * Which of the dashes that begin at a place end where ours do; where a single one begins there, it is ours if it ends within a
 * measure of that, because MuseScore moves ends to notes of other voices.
 */
function ourEnds(
  part: PartHeads,
  there: readonly End[],
  stops: Ends,
  target: Moment,
): readonly (End | undefined)[] {
  const stopsOf = ({ direction, number }: End) =>
    (stops.get(staffKey(direction, number)) ?? []).filter(({ used }) => !used);
  for (const start of there) {
    const stop = stopsOf(start).find((one) => isNear(one, target) || isEndBefore(part, one, target));
    if (stop !== undefined) return [start, stop];
  }
  const [start, second] = there;
  if (start === undefined || second !== undefined) return [];
  let nearest: End | undefined;
  for (const one of stopsOf(start))
    if (distance(one, target) < (nearest ? distance(nearest, target) : TWO_MEASURES)) nearest = one;
  return [start, nearest];
}

/**
 * The directions of our dashes in a score that was saved without our instructions: those that begin where the words before
 * them stand, on their staff, and end about where the words' token says. Either end may come first in the file: MuseScore writes an
 * end at a barline in the first voice.
 *
 * @param tokens of the words that are ours
 */
export function recordedDashes(root: XmlElement, tokens: readonly FoundToken[]): XmlElement[] {
  const reaches = new Map<XmlElement, Reach>();
  for (const { words, token } of tokens) {
    const direction = words.parent?.parent;
    if (direction !== undefined && token.reach !== undefined) reaches.set(direction, token.reach);
  }
  if (reaches.size === 0) return [];
  const lines = root.within('direction').filter((direction) => onlyDashes(direction) !== undefined);
  const found: XmlElement[] = [];
  for (const part of headsOf(root, new Set([...reaches.keys(), ...lines]))) {
    const { starts, stops } = endsIn(part);
    for (const [direction, moment] of part.moments) {
      const reach = reaches.get(direction);
      if (reach === undefined) continue;
      const there = starts.get(placeKey(direction, moment)) ?? [];
      const target = { measure: moment.measure + reach.measures, tick: reach.tick };
      const [own, stop] = ourEnds(part, there, stops, target);
      if (own === undefined || stop === undefined) continue;
      there.splice(there.indexOf(own), 1);
      stop.used = true;
      found.push(own.direction, stop.direction);
      const twin = twinOf(own, starts, stops, target);
      if (twin === undefined) continue;
      twin.used = true;
      found.push(twin.direction);
    }
  }
  return found;
}

/** An end too many near ours: MuseScore now and then writes one again in another voice. */
function twinOf(own: End, starts: Ends, stops: Ends, target: Moment): End | undefined {
  const key = staffKey(own.direction, own.number);
  const ends = stops.get(key) ?? [];
  let begun = 0;
  for (const there of starts.values())
    for (const { direction, number } of there) if (staffKey(direction, number) === key) begun++;
  const left = ends.filter(({ used }) => !used);
  if (left.length <= begun) return undefined;
  return left.find(({ measure }) => measure >= own.measure && measure <= target.measure);
}

/** The starts by their place, the stops by staff and number. */
function endsIn({ moments }: PartHeads) {
  const starts = new Map<string, End[]>();
  const stops = new Map<string, End[]>();
  for (const [direction, moment] of moments) {
    const dashes = onlyDashes(direction);
    const number = dashes?.attribute('number') ?? '1';
    const type = dashes?.attribute('type');
    if (type !== 'start' && type !== 'stop') continue;
    const [ends, key] =
      type === 'start' ? [starts, placeKey(direction, moment)] : [stops, staffKey(direction, number)];
    const there = ends.get(key) ?? [];
    ends.set(key, there);
    there.push({ direction, number, ...moment });
  }
  return { starts, stops };
}

function staffKey(direction: XmlElement, number: string): string {
  return `${direction.textOf('staff') ?? '1'} ${number}`;
}

function placeKey(direction: XmlElement, { measure, tick }: Moment): string {
  return `${measure} ${tick} ${direction.textOf('staff') ?? '1'}`;
}

function distance(a: Moment, b: Moment): number {
  return Math.abs(a.measure - b.measure) * (TWO_MEASURES / 2) + Math.abs(a.tick - b.tick);
}

function isNear(a: Moment, b: Moment): boolean {
  return a.measure === b.measure && Math.abs(a.tick - b.tick) <= ROUNDING;
}

/** True at the end of the measure before a moment that begins one: there programs put what we put behind the barline. */
function isEndBefore({ heads }: PartHeads, { measure, tick }: Moment, target: Moment): boolean {
  const next = heads[firstFrom(heads, { measure, tick })];
  return measure === target.measure - 1 && target.tick <= ROUNDING && next?.measure !== measure;
}
