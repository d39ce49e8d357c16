import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, compare, fraction, gcd, subtract, toNumber } from '#core/numeric/fraction.js';
import { isKeyboard } from '#core/score/instrument.js';
import type { TieRole } from '#core/score/model.js';
import { Clock } from '#core/score/tempo.js';
import { resolveTies } from '#core/score/ties.js';

const anyFraction = fc
  .tuple(fc.integer({ min: -(10 ** 9), max: 10 ** 9 }), fc.integer({ min: 1, max: 10 ** 7 }))
  .map(([num, den]) => fraction(num, den));

describe('fractions', () => {
  it('compare exactly, also beyond safe integers', () => {
    fc.assert(
      fc.property(anyFraction, anyFraction, (a, b) => {
        const exact = BigInt(a.num) * BigInt(b.den) - BigInt(b.num) * BigInt(a.den);
        expect(Math.sign(compare(a, b)) + 0).toBe(exact < 0n ? -1 : exact > 0n ? 1 : 0);
      }),
    );
  });

  it('add and subtract exactly, in lowest terms', () => {
    const small = fc
      .tuple(fc.integer({ min: -10_000, max: 10_000 }), fc.integer({ min: 1, max: 5000 }))
      .map(([num, den]) => fraction(num, den));
    fc.assert(
      fc.property(small, small, (a, b) => {
        const sum = add(a, b);
        expect(BigInt(sum.num) * BigInt(a.den * b.den)).toBe(
          BigInt(a.num * b.den + b.num * a.den) * BigInt(sum.den),
        );
        expect(gcd(sum.num, sum.den)).toBe(1);
        expect(subtract(sum, b)).toEqual(a);
      }),
    );
  });

  it.each([
    [1.5, 2],
    [1, 0],
    [Number.NaN, 1],
    [2 ** 53, 1],
  ])('refuse %d/%d', (num, den) => {
    expect(() => fraction(num, den)).toThrow(RangeError);
  });
});

describe('the clock', () => {
  it('goes by the marks and by the default before them', () => {
    const clock = new Clock([
      { at: fraction(4), quartersPerMinute: 120 },
      { at: fraction(8), quartersPerMinute: 30 },
    ]);
    const slow = (4 * 60) / 90;
    expect([0, 4, 6, 8, 9].map((at) => clock.secondsAt(at)).map((s) => s.toFixed(6))).toEqual(
      [0, slow, slow + 1, slow + 2, slow + 4].map((s) => s.toFixed(6)),
    );
  });

  it('never goes back', () => {
    const mark = fc.record({
      at: fc.nat(1000).map((at) => fraction(at, 8)),
      quartersPerMinute: fc.integer({ min: 4, max: 1000 }),
    });
    fc.assert(
      fc.property(
        fc.array(mark),
        fc.float({ min: 0, max: 200, noNaN: true }),
        fc.float({ min: 0, max: 9, noNaN: true }),
        (marks, at, more) => {
          const clock = new Clock([...marks].sort((a, b) => toNumber(a.at) - toNumber(b.at)));
          expect(clock.secondsAt(at + more)).toBeGreaterThanOrEqual(clock.secondsAt(at));
        },
      ),
    );
  });
});

describe('keyboard parts', () => {
  const evidence = (names: string[], staves = 1, sounds: string[] = [], programs: number[] = []) => ({
    names,
    sounds,
    programs,
    staves,
  });
  it.each([
    [evidence(['Piano']), true],
    [evidence(['Klavier']), true],
    [evidence(['Flügel']), true],
    [evidence(['Clavecin']), true],
    [evidence(['Right Hand', 'Grand Piano']), true],
    [evidence([], 2), true],
    [evidence(['MusicXML Part'], 2), true],
    [evidence([], 1), false],
    [evidence([], 1, ['keyboard.piano']), true],
    [evidence([], 2, ['pluck.harp']), false],
    [evidence([], 1, [], [1]), true],
    [evidence([], 2, [], [47]), false],
    [evidence(['Harp'], 2, [], [1]), false],
    [evidence(['Harpsichord'], 2), true],
    [evidence(['Marimba'], 2), false],
    [evidence(['Violin'], 1, [], [1]), false],
    [evidence(['Bass voice'], 1), false],
  ])('%j: %s', (found, expected) => {
    expect(isKeyboard(found)).toBe(expected);
  });
});

describe('ties', () => {
  const note = (key: number, tie: TieRole, voice = '1') => ({ key, tie, voice });

  it('prefer the same voice, else take the latest that fits', () => {
    const notes = [
      note(60, 'start', '1'),
      note(60, 'start', '2'),
      note(60, 'stop', '1'),
      note(60, 'stop', '3'),
    ];
    expect(resolveTies(notes, [0, 0, 4, 4], [4, 4, 4, 4], 0)).toEqual([-1, -1, 0, 1]);
  });

  it('do not reach over a gap, to another key, or from the future', () => {
    expect(resolveTies([note(60, 'start'), note(60, 'stop')], [0, 5], [4, 1], 0)).toEqual([-1, -1]);
    expect(resolveTies([note(60, 'start'), note(61, 'stop')], [0, 4], [4, 1], 0)).toEqual([-1, -1]);
    expect(resolveTies([note(60, 'stop'), note(60, 'start')], [0, 4], [4, 1], 0)).toEqual([-1, -1]);
  });

  it('bridge a gap that comes from rounding', () => {
    expect(resolveTies([note(60, 'start'), note(60, 'stop')], [0, 1024], [1023, 9], 1)).toEqual([-1, 0]);
  });

  it('form chains without cycles that go back in time', () => {
    const any = fc.record({
      key: fc.integer({ min: 60, max: 62 }),
      tie: fc.constantFrom<TieRole>('none', 'start', 'stop', 'both'),
      voice: fc.constantFrom('1', '2'),
      start: fc.nat(8),
      length: fc.nat(3),
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 30 }), (notes) => {
        const starts = notes.map(({ start }) => start);
        const from = resolveTies(
          notes,
          starts,
          notes.map(({ length }) => length),
          1,
        );
        const used = from.filter((at) => at >= 0);
        expect(new Set(used).size).toBe(used.length);
        from.forEach((at, id) => {
          if (at < 0) return;
          expect(['start', 'both']).toContain(notes[at]?.tie);
          expect(['stop', 'both']).toContain(notes[id]?.tie);
          expect(notes[at]?.key).toBe(notes[id]?.key);
          let steps = 0;
          for (let back = id; back >= 0; back = from[back] as number) expect(steps++).toBeLessThan(31);
        });
      }),
    );
  });
});
