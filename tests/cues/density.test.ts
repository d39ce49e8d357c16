import { describe, expect, it } from 'vitest';
import { GREATEST_SPEED } from '#core/motion/depth/forearm.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { NEAR, print, readAndCount, Sums } from './counts.js';

/** mm a second of the forearm in trills, tremolos and Alberti basses, as docs/cues.md states. */
const FIGURES_SPEED = 80;

describe('whoever reads the printed cues stays within the tolerance of the plan; crossings and forearm are plausible', () => {
  it.each([
    ['our own tunes', () => TUNES.map((name) => `${FIXTURES}${name}`)],
    ['editions', () => editions(3, 0.9)],
  ])('in %s', (title, files) => {
    const sums = new Sums();
    for (const file of files()) readAndCount(file, sums);
    print(title, sums);
    expect(sums.failures).toEqual([]);
    expect(sums.fastest).toBeLessThanOrEqual(GREATEST_SPEED + NEAR);
    expect(sums.figures).toBeGreaterThan(20);
    expect(sums.shaking).toBeLessThanOrEqual(FIGURES_SPEED);
    expect(sums.depth.every).toBeGreaterThan(sums.depth.essential);
    expect(sums.depth.essential).toBeGreaterThan(sums.depth.demanding);
    expect(sums.depth.demanding).toBeGreaterThan(0);
    expect(sums.printed).toBeGreaterThan(0);
  });
});
