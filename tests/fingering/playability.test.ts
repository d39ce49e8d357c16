import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type HandModel, handModel } from '#core/anatomy/hand.js';
import { fingerLine } from '#core/fingering/finger.js';
import type { SliceFingering } from '#core/fingering/result.js';
import { buildLines } from '#core/hands/build.js';
import type { Line, Slice } from '#core/hands/line.js';
import { decode } from '#core/musicxml/bytes/decode.js';
import { readScore } from '#core/musicxml/read/score.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { Finger } from '#core/score/model.js';
import { LONG } from '../rounds.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { black, centre, practical } from './restated/reach.js';

const SPANS = ['small', 'medium', 'large', ...(LONG ? ['7th', '8th', '9th', '10th', '11th', '12th'] : [])];

/** Rounding room of the practical reach and, at the lower end, for fingers folded onto neighbouring keys: candidates.ts. */
const TOLERANCE = 5;
const FOLD = 8;
/** Seconds without a key that let the hand move as a whole: view.ts. */
const FREE_SECONDS = 0.15;

/** Seconds that a silent change of fingers on a held key takes: cost.ts. */
const SUBSTITUTION_SECONDS = 0.35;

interface Playing {
  readonly key: number;
  readonly finger: Finger;
  readonly struck: boolean;
}

/** The key at the same distance from D on its other side. */
const mirrorKey = (key: number): number => 124 - key;

/** Fingers on keys as the right hand sees them, ascending. */
function playing(line: Line, slice: Slice, { struck, held }: SliceFingering): Playing[] {
  const own = (key: number): number => (line.hand === 'left' ? mirrorKey(key) : key);
  const all: Playing[] = [];
  slice.struck.forEach(({ key }, nth) => {
    if (struck[nth]) all.push({ key: own(key), finger: struck[nth]!, struck: true });
  });
  slice.held.forEach(({ key }, nth) => {
    if (held[nth]) all.push({ key: own(key), finger: held[nth]!, struck: false });
  });
  return all.sort((a, b) => a.key - b.key);
}

/** What is wrong with keys held together; of a rolled chord, only neighbours must lie within reach. */
function together(all: readonly Playing[], hand: HandModel, rolled: boolean): string | undefined {
  for (let high = 1; high < all.length; high++) {
    for (let low = 0; low < high; low++) {
      const [a, b] = [all[low]!, all[high]!];
      if (a.finger === b.finger) {
        const near = high === low + 1 && b.key - a.key <= 2 && black(a.key) === black(b.key);
        if (a.finger !== 1 || !near) return 'doubled';
        continue;
      }
      if (a.finger > b.finger) return 'crossed';
      if (rolled && low < high - 1) continue;
      const [least, most] = practical(a.finger, b.finger, hand.span);
      const way = centre(b.key) - centre(a.key);
      if (way > most + TOLERANCE || way < least - TOLERANCE - FOLD) return 'reach';
    }
  }
  return undefined;
}

/** Fingers 2-5 that cross each other between two single keys, but for the stated case of chromatic passages. */
function overlap(before: readonly Playing[], now: readonly Playing[]): boolean {
  if (before.length !== 1 || now.length !== 1) return false;
  const [a, b] = [before[0]!, now[0]!];
  if (a.finger === 1 || b.finger === 1 || a.finger === b.finger || a.key === b.key) return false;
  if (b.key > a.key === b.finger > a.finger) return false;
  const longer = Math.abs(a.finger - 3) < Math.abs(b.finger - 3) ? a : b;
  return !(black(longer.key) && Math.abs(b.key - a.key) <= 2);
}

/** Both fingers beside struck keys that were held together with others: the keys that both slices share stay put. */
function overlapAmongChords(before: readonly Playing[], now: readonly Playing[]): boolean {
  if (before.length === 1 && now.length === 1) return false;
  return now.some(
    (b) =>
      b.struck &&
      b.finger !== 1 &&
      before.some((a) => {
        if (a.finger === 1 || a.finger === b.finger || a.key === b.key) return false;
        const stays = now.some((own) => own.key === a.key && own.finger === a.finger);
        return stays && b.key > a.key !== b.finger > a.finger;
      }),
  );
}

const KINDS = ['reach', 'crossed', 'doubled', 'overlap', 'missing'] as const;
type Kind = (typeof KINDS)[number];

interface Tally {
  readonly counts: Record<Kind, number>;
  readonly examples: string[];
  slices: number;
  doubts: number;
  /** Held keys that the pedal does not keep down, let go before their time without a doubt being reported. */
  letGo: number;
  /** Held keys that change their finger where there is no time for it. */
  hasty: number;
}

function judge(name: string, line: Line, span: string, tally: Tally): void {
  const hand = handModel(span);
  const { fingering, doubts } = fingerLine(line, hand, { keepDigits: false });
  const doubtful = new Set(doubts.map(({ slice }) => slice));
  tally.doubts += doubts.length;
  let before: Playing[] = [];
  line.slices.forEach((slice, at) => {
    const own = fingering.slices[at]!;
    const now = playing(line, slice, own);
    tally.slices += 1;
    const note = (kind: Kind): void => {
      tally.counts[kind] += 1;
      const own = (key: number): number => (line.hand === 'left' ? mirrorKey(key) : key);
      const text = [before, now].map((all) => all.map((at) => `${at.finger}@${own(at.key)}`).join('+'));
      tally.examples.push(
        `${kind}: ${name}, ${line.hand}, measure ${slice.measure + 1}: ${text.join(' to ')}`,
      );
    };
    if (!doubtful.has(at)) {
      if (own.struck.some((finger) => finger === null)) note('missing');
      const wrong = together(now, hand, slice.rolled);
      if (wrong) note(wrong as Kind);
      tally.letGo += slice.held.filter((key, nth) => own.held[nth] === null && !key.pedalled).length;
    }
    tally.hasty += now.filter(({ key, finger, struck }) => {
      const was = before.find((other) => other.key === key);
      return !struck && was && was.finger !== finger && slice.seconds < SUBSTITUTION_SECONDS;
    }).length;
    const fresh = at === 0 || slice.phraseStart || slice.free >= FREE_SECONDS;
    if (!fresh && (overlap(before, now) || overlapAmongChords(before, now))) note('overlap');
    before = now;
  });
}

function linesOf(path: string): { name: string; lines: readonly Line[] } {
  const { text } = decode(new Uint8Array(readFileSync(path)), DEFAULT_LIMITS);
  const { score } = readScore(parseTree(text, DEFAULT_LIMITS), text, { limits: DEFAULT_LIMITS });
  return { name: path, lines: buildLines(score, { existing: 'ignore' }).lines };
}

describe.each([
  { set: 'our tunes', paths: TUNES.map((name) => `${FIXTURES}${name}`) },
  { set: 'editions', paths: editions(4, 0.45) },
])('$set', ({ set, paths }) => {
  let scores: ReturnType<typeof linesOf>[] = [];
  beforeAll(() => {
    scores = paths.map(linesOf);
  });

  it.each(SPANS)('no fingering is unplayable for a %s hand', (span) => {
    const counts = { reach: 0, crossed: 0, doubled: 0, overlap: 0, missing: 0 };
    const tally: Tally = { counts, examples: [], slices: 0, doubts: 0, letGo: 0, hasty: 0 };
    for (const { name, lines } of scores) for (const line of lines) judge(name, line, span, tally);
    console.log(
      `playability, ${set}, ${span}: ${scores.length} scores, ${tally.slices} slices, ` +
        `${tally.doubts} reported as doubts; violations: ${KINDS.map((kind) => `${kind} ${counts[kind]}`).join(', ')}; ` +
        `held keys let go early ${tally.letGo}, changing fingers in haste ${tally.hasty}`,
    );
    if (tally.examples.length > 0) console.log(tally.examples.slice(0, 40).join('\n'));
    expect(tally.slices).toBeGreaterThan(100);
    expect(counts).toEqual({ reach: 0, crossed: 0, doubled: 0, overlap: 0, missing: 0 });
  });
});
