import { describe, expect, it } from 'vitest';
import { placeTip, placeTips } from '#core/anatomy/fingertip.js';
import { handModel, naturalTip, tipWidth } from '#core/anatomy/hand.js';
import { reach } from '#core/anatomy/reach.js';
import { freeWidth, isBlack, mirrorKey } from '#core/keyboard/key-plan.js';
import { HandlineError } from '#core/score/errors.js';
import type { Finger } from '#core/score/model.js';

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
const KEYS = Array.from({ length: 12 }, (_, nth) => 60 + nth);
const DEPTHS = Array.from({ length: 131 }, (_, nth) => 10 + nth);
const hands = ['small', 'medium', 'large'].map(handModel);

describe('a hand', () => {
  it('takes its span in mm, as an interval or as a preset within 180-270 mm (Boyle et al. 2015, from memory)', () => {
    expect(handModel(210).span).toBe(210);
    expect(handModel('210 mm').span).toBe(210);
    expect(handModel('9th').span).toBeCloseTo(194, 0);
    expect(['small', 'medium', 'large'].map((preset) => handModel(preset).span)).toEqual([184, 206, 228]);
    expect(handModel().span).toBe(206);
  });

  it.each(['', 'huge', 20, 900, Number.NaN, '3rd', '6th', '13th', '9st'])('refuses %j as a span', (span) => {
    expect(() => handModel(span)).toThrow(HandlineError);
  });

  it('has its thumb 35-45 mm and 5 20-25 mm nearer the body than 3, 2 and 4 a few mm (from memory)', () => {
    const hand = handModel();
    const tip = (finger: Finger) => naturalTip(hand, finger);
    expect(tip(3)).toBe(0);
    expect(-tip(1)).toBeGreaterThanOrEqual(35);
    expect(-tip(1)).toBeLessThanOrEqual(45);
    expect(-tip(5)).toBeGreaterThanOrEqual(20);
    expect(-tip(5)).toBeLessThanOrEqual(25);
    for (const finger of [2, 4] as const) expect(-tip(finger)).toBeGreaterThan(0);
    for (const finger of [2, 4] as const) expect(-tip(finger)).toBeLessThan(10);
  });

  it('reaches in order, further the larger it is, and no shorter crossed', () => {
    for (const low of FINGERS) {
      for (const high of FINGERS.filter((finger) => finger > low)) {
        const [small, , large] = hands.map((hand) => reach(hand, low, high));
        for (const own of [small!, large!]) {
          const row = [own.minPractical, own.minComfortable, own.minRelaxed];
          row.push(own.maxRelaxed, own.maxComfortable, own.maxPractical);
          expect(row).toEqual([...row].sort((a, b) => a - b));
        }
        expect(large!.maxPractical).toBeGreaterThan(small!.maxPractical);
        expect(large!.minPractical).toBe(small!.minPractical);
      }
    }
  });
});

describe('a fingertip on a key', () => {
  it('lies on the key, where curl and tip say, and never costs less than nothing', () => {
    for (const hand of hands) {
      for (const finger of FINGERS) {
        for (const key of KEYS) {
          for (const depth of DEPTHS) {
            const { tip, curl, discomfort } = placeTip(hand, finger, key, depth);
            expect(tip + curl).toBeCloseTo(depth + naturalTip(hand, finger), 9);
            expect(discomfort).toBeGreaterThanOrEqual(0);
            if (isBlack(key)) expect(tip).toBeGreaterThan(50);
          }
        }
      }
    }
  });

  it('changes its cost smoothly: 1 mm of depth never costs more than the stiffest bend does', () => {
    const hand = handModel();
    for (const finger of FINGERS) {
      for (const key of KEYS) {
        for (const depth of DEPTHS.slice(1)) {
          const step =
            placeTip(hand, finger, key, depth).discomfort - placeTip(hand, finger, key, depth - 1).discomfort;
          expect(Math.abs(step)).toBeLessThanOrEqual(1.2 + 1e-9);
        }
      }
    }
  });

  it('is the same on the mirrored key', () => {
    const hand = handModel();
    for (const key of KEYS) {
      for (const depth of DEPTHS) {
        expect(placeTip(hand, 2, mirrorKey(key), depth).discomfort).toBeCloseTo(
          placeTip(hand, 2, key, depth).discomfort,
          9,
        );
      }
    }
  });

  it('has a depth of the forearm at which it plays at ease, on every key', () => {
    const hand = handModel();
    for (const finger of FINGERS) {
      for (const key of KEYS) {
        const best = Math.min(...DEPTHS.map((depth) => placeTip(hand, finger, key, depth).discomfort));
        expect(best).toBeLessThan(0.6);
      }
    }
  });

  it('costs 8 deep between two black keys where the finger is given: it turns on its side', () => {
    const hand = handModel();
    for (const finger of [2, 3, 4] as const) {
      for (const key of [62, 67, 69]) {
        for (const [nth, discomfort] of placeTips(hand, finger, key, 80, 40).discomforts.entries()) {
          // Less than one for the shorter lever.
          expect(Math.floor(discomfort)).toBe(8);
          expect(discomfort).toBeLessThan(placeTip(hand, finger, key, 80 + nth).discomfort);
        }
      }
    }
  });

  it('is elsewhere the same for a finger that is given', () => {
    const hand = handModel();
    for (const finger of FINGERS) {
      for (const key of [61, 64, 66]) {
        const { discomforts, tips } = placeTips(hand, finger, key, DEPTHS[0]!, DEPTHS.length);
        for (const [nth, depth] of DEPTHS.entries()) {
          const { discomfort, tip } = placeTip(hand, finger, key, depth);
          expect([discomforts[nth], tips[nth]]).toEqual([discomfort, tip]);
        }
      }
    }
  });

  it('sits at ease with the thumb on white while the long fingers hover over black (common practice)', () => {
    const hand = handModel();
    const ease = DEPTHS.filter((depth) => placeTip(hand, 1, 60, depth).discomfort === 0);
    const black = DEPTHS.filter((depth) =>
      [2, 3, 4].every((f) => placeTip(hand, f as Finger, 61, depth).discomfort < 1),
    );
    expect(ease.filter((depth) => black.includes(depth)).length).toBeGreaterThan(0);
    // 2 on D, at the depth where the thumb is at ease, is wedged or curled.
    for (const depth of ease) expect(placeTip(hand, 2, 62, depth).discomfort).toBeGreaterThan(1);
    expect(tipWidth(hand, 2)).toBeGreaterThan(freeWidth(62));
  });
});
