import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { depthMoves } from '#core/cues/depth-cues.js';
import { type DepthCue, fewestCues } from '#core/cues/fewest.js';
import { type ReaderStep, readerSteps, TOLERANCES, tolerance } from '#core/cues/reader.js';
import { planMotion } from '#core/motion/motion.js';
import type { Density } from '#core/options/options.js';
import { steps } from '../motion/arbitrary.js';
import { lineOf } from '../motion/lines.js';
import { rounds } from '../rounds.js';
import { followed, isEarly, isFelt, isFurther } from './follow.js';

const DENSITIES = Object.keys(TOLERANCES) as Density[];

const step = fc.record({ planned: fc.integer({ min: 0, max: 20 }), fresh: fc.boolean(), wide: fc.boolean() });

/** Steps from planned depths, and a tolerance for each. */
function given(all: readonly { planned: number; fresh: boolean; wide: boolean }[]) {
  const path = all.map(
    ({ planned, fresh }, at): ReaderStep => ({
      planned,
      change: at === 0 ? 0 : planned - all[at - 1]!.planned,
      fresh: fresh && at % 4 === 3,
      seconds: 0.4,
    }),
  );
  return { path, tolerances: all.map(({ wide }) => (wide ? 8 : 5)) };
}

/** Whether the plan goes that way here, or rests here and goes that way at the next note. */
function goesThere(path: readonly ReaderStep[], { slice, direction }: DepthCue): boolean {
  const way = [path[slice], path[slice + 1]].find((own) => own && (own.fresh || own.change !== 0));
  return way !== undefined && !way.fresh && way.change * direction > 0;
}

/** Whether every cue sends the reader on, where the plan goes, in time and felt, and the reader stays within the tolerance. */
function leads(
  path: readonly ReaderStep[],
  tolerances: readonly number[],
  cues: readonly DepthCue[],
): boolean {
  const depths = followed(path, cues);
  return (
    depths.every((depth, at) => Math.abs(depth - path[at]!.planned) <= tolerances[at]!) &&
    cues.every((cue) => {
      const told = { ...cue, path, stay: depths[cue.slice - 1]!, tolerances };
      return (
        (depths[cue.slice]! - told.stay) * cue.direction > 0 &&
        !path[cue.slice]!.fresh &&
        goesThere(path, cue) &&
        !isEarly(told) &&
        isFelt(told)
      );
    })
  );
}

/** Fewest cues by trying every set of them, small sets first. */
function fewestByTrying(path: readonly ReaderStep[], tolerances: readonly number[]): number {
  const tries = (count: number, from: number, cues: readonly DepthCue[]): boolean => {
    if (count === 0) return leads(path, tolerances, cues);
    for (let slice = from; slice < path.length; slice++) {
      for (const direction of [1, -1] as const) {
        if (tries(count - 1, slice + 1, [...cues, { slice, direction }])) return true;
      }
    }
    return false;
  };
  let count = 0;
  while (!tries(count, 0, [])) count++;
  return count;
}

describe('the fewest cues', () => {
  it('keep the reader within the tolerance, and no fewer that each move the reader do: against every set of cues', () => {
    let most = 0;
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 8 }), (all) => {
        const { path, tolerances } = given(all);
        const cues = fewestCues(path, tolerances);
        expect(leads(path, tolerances, cues)).toBe(true);
        expect(cues.length).toBe(fewestByTrying(path, tolerances));
        most = Math.max(most, cues.length);
      }),
      rounds(300),
    );
    expect(most).toBeGreaterThan(2);
  });

  it('each send the reader on from where they are, further where they went the same way before', () => {
    fc.assert(
      fc.property(steps(30), fc.constantFrom(...DENSITIES), (all, density) => {
        const { line, fingers } = lineOf('right', all);
        const plan = planMotion(line, fingers, handModel());
        const path = readerSteps(line, plan);
        const moves = depthMoves(line, plan, density);
        const reader = followed(path, moves);
        const measures = line.slices.map(({ measure }) => measure);
        for (const [nth, move] of moves.entries()) {
          const { slice, direction, key, end, travel } = move;
          expect(direction * (reader[slice]! - reader[slice - 1]!)).toBeGreaterThan(0);
          expect(Math.abs(reader[end]! - reader[slice - 1]!)).toBe(travel);
          const tolerances = line.slices.map(({ seconds }) => tolerance(density, seconds));
          expect(isEarly({ path, stay: reader[slice - 1]!, slice, direction, tolerances })).toBe(false);
          expect(key.startsWith('further')).toBe(isFurther(path, reader, measures, moves[nth - 1], move));
        }
      }),
    );
  });

  it('are fewer at a wider tolerance, which grows with the pace', () => {
    fc.assert(
      fc.property(steps(30), (all) => {
        const { line, fingers } = lineOf('right', all);
        const plan = planMotion(line, fingers, handModel());
        const counts = DENSITIES.map((density) => depthMoves(line, plan, density).length);
        expect(counts).toEqual([...counts].sort((a, b) => b - a));
      }),
    );
    const paces = [1, 0.25, 0.15, 0.1, 0.05].map((seconds) => tolerance('essential', seconds));
    expect(paces[0]).toBe(TOLERANCES.essential);
    expect(paces).toEqual([...paces].sort((a, b) => a - b));
    expect(paces.at(-1)).toBe(2 * TOLERANCES.essential);
  });
});
