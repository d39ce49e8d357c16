import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { reach } from '#core/anatomy/reach.js';
import { fingerLine } from '#core/fingering/finger.js';
import { SEMITONE_WIDTH } from '#core/keyboard/key-plan.js';
import type { Finger } from '#core/score/model.js';
import { melody } from '../motion/lines.js';
import { black, SPANS } from './restated/reach.js';

/*
 * Parncutt, Sloboda, Clarke, Raekallio and Desain, An ergonomic model of keyboard fingering for melodic fragments, Music
 * Perception 14 (1997): table of spans and the twelve rules, from memory. The paper's own ranked lists for its exercises
 * are not at hand, so they are not reproduced; what follows from the table and the rules alone is.
 */

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
const hand = handModel();

/** Spans of a pair in semitones, as our own table has them. */
function spans(low: Finger, high: Finger) {
  const { minPractical, minComfortable, minRelaxed, maxRelaxed, maxComfortable, maxPractical } = reach(
    hand,
    low,
    high,
  );
  return [minPractical, minComfortable, minRelaxed, maxRelaxed, maxComfortable, maxPractical].map((mm) =>
    Math.round(mm / SEMITONE_WIDTH),
  );
}

/** Interval from finger to finger with its spans, lower finger first. */
function pair(a: Finger, b: Finger, way: number) {
  const [, minComfortable, minRelaxed, maxRelaxed, maxComfortable] =
    SPANS[`${Math.min(a, b)}-${Math.max(a, b)}`]!;
  return {
    interval: a < b ? way : -way,
    minComfortable,
    minRelaxed,
    maxRelaxed,
    maxComfortable,
  };
}

/** Difficulty of two neighbouring notes: stretch, small span, large span, three-to-four, four on black, thumb passing. */
function twoNotes(a: Finger, b: Finger, from: number, to: number): number {
  if (a === b) return from === to ? 0 : 20;
  const span = pair(a, b, to - from);
  const thumb = a === 1 || b === 1;
  const over = (limit: number) => Math.max(0, span.interval - limit);
  const under = (limit: number) => Math.max(0, limit - span.interval);
  let points = 2 * (over(span.maxComfortable) + under(span.minComfortable));
  points += (thumb ? 1 : 2) * (over(span.maxRelaxed) + under(span.minRelaxed));
  if (a === 3 && b === 4) points += 1;
  const [three, four] = a === 3 ? [from, to] : [to, from];
  if (a + b === 7 && (a === 3 || b === 3) && !black(three) && black(four)) points += 1;
  if (thumb && span.interval < 0) {
    const [thumbKey, other] = a === 1 ? [from, to] : [to, from];
    points += black(thumbKey) === black(other) ? 1 : black(thumbKey) ? 3 : 0;
  }
  return points;
}

function difficulty(fingers: readonly Finger[], keys: readonly number[]): number {
  let points = 0;
  fingers.forEach((finger, at) => {
    const neighbours = [at - 1, at + 1].filter((other) => other >= 0 && other < keys.length);
    const whites = neighbours.filter((other) => !black(keys[other]!)).length;
    if (finger > 3) points += 1;
    if (finger === 1 && black(keys[at]!)) points += 1 + 2 * whites;
    if (finger === 5 && black(keys[at]!)) points += 2 * whites;
    if (at > 0) points += twoNotes(fingers[at - 1]!, finger, keys[at - 1]!, keys[at]!);
    if (at < 2) return;
    const three = fingers.slice(at - 2, at + 1);
    if ([3, 4, 5].every((weak) => three.includes(weak as Finger))) points += 1;
    const [a, c] = [three[0]!, three[2]!];
    const way = keys[at]! - keys[at - 2]!;
    if (a === c) {
      if (way !== 0) points += 1 + Math.abs(way);
      return;
    }
    const span = pair(a, c, way);
    const beyond = Math.max(0, span.interval - span.maxComfortable, span.minComfortable - span.interval);
    if (beyond > 0) points += 1 + beyond;
  });
  return points;
}

function ranking(keys: readonly number[]): { fingers: readonly Finger[]; points: number }[] {
  const all = keys.reduce<Finger[][]>(
    (found) => found.flatMap((fingers) => FINGERS.map((finger) => [...fingers, finger])),
    [[]],
  );
  return all
    .map((fingers) => ({ fingers, points: difficulty(fingers, keys) }))
    .sort((a, b) => a.points - b.points);
}

describe('the published ergonomic model', () => {
  it('has the spans of the table, for every pair', () => {
    expect(Object.keys(SPANS)).toHaveLength(10);
    for (const [pair, row] of Object.entries(SPANS)) {
      const [low, high] = pair.split('-').map(Number) as [Finger, Finger];
      expect(spans(low, high), pair).toEqual(row);
      expect([...row].sort((a, b) => a - b)).toEqual(row);
    }
  });

  it('lets no pair inside a wider pair reach further than that', () => {
    for (const [low, high] of [
      [1, 4],
      [2, 5],
      [2, 4],
      [3, 5],
    ] as const) {
      expect(spans(low, high)[5]!).toBeLessThanOrEqual(spans(1, 5)[5]!);
      expect(spans(low, high)[5]!).toBeGreaterThan(spans(low, (high - 1) as Finger)[5]!);
    }
  });

  it.each([
    ['C D E F G', [60, 62, 64, 65, 67]],
    ['G A B C D', [67, 69, 71, 72, 74]],
  ])('ranks the five fingers in order first for %s, and so does ours', (_, keys) => {
    const [best, second] = ranking(keys);
    expect(best!.fingers).toEqual([1, 2, 3, 4, 5]);
    expect(second!.points).toBeGreaterThan(best!.points);
    const { line } = melody('right', keys, '11111', 0.25);
    const ours = fingerLine(line, hand).fingering.slices.map(({ struck }) => struck[0]);
    console.log(`published rules: 12345 ${best!.points}, next ${second!.fingers.join('')} ${second!.points}`);
    expect(ours).toEqual([1, 2, 3, 4, 5]);
  });
});
