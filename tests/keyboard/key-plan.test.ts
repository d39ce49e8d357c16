import { describe, expect, it } from 'vitest';
import {
  BLACK_FOOT_WIDTH,
  BLACK_FRONT,
  BLACK_TOP_WIDTH,
  blackNeighbours,
  FALLBOARD,
  freeWidth,
  HIGHEST_KEY,
  isBlack,
  keyX,
  LOWEST_KEY,
  MIRROR_KEY,
  mirrorKey,
  OCTAVE_WIDTH,
  WHITE_WIDTH,
} from '#core/keyboard/key-plan.js';

const KEYS = Array.from({ length: HIGHEST_KEY - LOWEST_KEY + 1 }, (_, nth) => LOWEST_KEY + nth);
const WHITES = KEYS.filter((key) => !isBlack(key));
const [C4, D4, G4, A4, C5] = [60, 62, 67, 69, 72];

describe('the key plan', () => {
  it('has 88 keys, 52 of them white (common practice)', () => {
    expect(KEYS).toHaveLength(88);
    expect(WHITES).toHaveLength(52);
  });

  it('has an octave of 164-165 mm (DIN 8996, from memory)', () => {
    expect(OCTAVE_WIDTH).toBeGreaterThanOrEqual(164);
    expect(OCTAVE_WIDTH).toBeLessThanOrEqual(165);
    for (const key of KEYS.filter((own) => own + 12 <= HIGHEST_KEY)) {
      expect(keyX(key + 12) - keyX(key)).toBeCloseTo(OCTAVE_WIDTH, 9);
    }
  });

  it('lays white keys side by side: 52 of 23.5 mm make 1222 mm (within the 1220-1230 mm of DIN 8996, from memory)', () => {
    WHITES.slice(1).forEach((key, nth) => {
      expect(keyX(key) - keyX(WHITES[nth]!)).toBeCloseTo(WHITE_WIDTH, 9);
    });
    const breadth = keyX(HIGHEST_KEY) - keyX(LOWEST_KEY) + WHITE_WIDTH;
    expect(breadth).toBeCloseTo(52 * WHITE_WIDTH, 9);
    expect(breadth).toBeGreaterThanOrEqual(1220);
    expect(breadth).toBeLessThanOrEqual(1230);
  });

  it('fills the octave at the tails: seven white tails and five black feet', () => {
    const blacks = KEYS.filter((key) => key > C4 && key < C5 && isBlack(key));
    const tails = 7 * WHITE_WIDTH - 5 * BLACK_FOOT_WIDTH;
    expect(blacks).toHaveLength(5);
    expect(tails / 7).toBeGreaterThan(BLACK_TOP_WIDTH);
    const within = (from: number, to: number) =>
      blacks.filter((key) => keyX(key) > from && keyX(key) < to).length;
    expect(within(keyX(C4) - WHITE_WIDTH / 2, keyX(C4) + 2.5 * WHITE_WIDTH)).toBe(2);
    expect(within(keyX(C4) + 2.5 * WHITE_WIDTH, keyX(C4) + 6.5 * WHITE_WIDTH)).toBe(3);
  });

  it('sets C sharp and F sharp left, D sharp and A sharp right, G sharp in the middle (common practice)', () => {
    const offset = (black: number) => keyX(black) - (keyX(black - 1) + keyX(black + 1)) / 2;
    const [cSharp, dSharp, fSharp, gSharp, aSharp] = [61, 63, 66, 68, 70].map(offset) as [
      number,
      number,
      number,
      number,
      number,
    ];
    console.log(
      `black keys off the middle, mm: ${[cSharp, dSharp, fSharp, gSharp, aSharp].map((mm) => mm.toFixed(1)).join(', ')}`,
    );
    expect(cSharp).toBeLessThan(-1);
    expect(fSharp).toBeLessThan(-1);
    expect(dSharp).toBeGreaterThan(1);
    expect(aSharp).toBeGreaterThan(1);
    expect(gSharp).toBeCloseTo(0, 9);
    for (const mm of [cSharp, dSharp, fSharp, aSharp]) expect(Math.abs(mm)).toBeLessThan(5);
  });

  it('has black keys of 9-11 mm on top, 95-100 mm long, 50 mm from the front of 150 mm (from memory)', () => {
    expect(BLACK_TOP_WIDTH).toBeGreaterThanOrEqual(9);
    expect(BLACK_TOP_WIDTH).toBeLessThanOrEqual(11);
    expect(FALLBOARD - BLACK_FRONT).toBeGreaterThanOrEqual(95);
    expect(FALLBOARD - BLACK_FRONT).toBeLessThanOrEqual(100);
    expect(FALLBOARD).toBeLessThanOrEqual(150);
  });

  it('mirrors itself about every D and every G sharp', () => {
    expect(mirrorKey(MIRROR_KEY)).toBe(MIRROR_KEY);
    for (const centre of [D4, D4 + 12, 68, 68 - 12]) {
      for (let step = 0; step <= 24; step++) {
        expect(isBlack(centre + step)).toBe(isBlack(centre - step));
        expect(keyX(centre + step) + keyX(centre - step)).toBeCloseTo(2 * keyX(centre), 9);
        expect(blackNeighbours(centre + step)).toBe(blackNeighbours(centre - step));
        if (!isBlack(centre + step))
          expect(freeWidth(centre + step)).toBeCloseTo(freeWidth(centre - step), 9);
      }
    }
  });

  it('puts D, G and A between two black keys and leaves D the most room of them', () => {
    const both = WHITES.filter((key) => blackNeighbours(key) === 2 && key > LOWEST_KEY && key < HIGHEST_KEY);
    expect(new Set(both.map((key) => key % 12))).toEqual(new Set([2, 7, 9]));
    expect(freeWidth(D4)).toBeGreaterThan(freeWidth(G4));
    expect(freeWidth(G4)).toBeCloseTo(freeWidth(A4), 9);
    for (const key of WHITES.filter((own) => blackNeighbours(own) === 1)) {
      expect(freeWidth(key)).toBeGreaterThan(freeWidth(D4));
    }
  });

  it('has keys in ascending order', () => {
    for (const key of KEYS.slice(1)) expect(keyX(key)).toBeGreaterThan(keyX(key - 1));
  });
});
