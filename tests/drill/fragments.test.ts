import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { compare, type Player, ScaleFingering } from '#core/drill/awkward/compare.js';
import { drill } from '#core/drill/drill.js';
import { type Fragment, fragmentPlaces, fragmentsOf } from '#core/drill/patterns/fragments.js';
import { scaleLadder } from '#core/drill/theory/keys.js';
import { parseTonic } from '#core/drill/theory/tonic.js';
import { fingerLine } from '#core/fingering/finger.js';
import { readLines } from '#core/read-lines.js';
import type { Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';

const model = handModel();
const player = (hand: Hand): Player => ({ hand, model, seconds: 0.375 });

describe('fragments', () => {
  it('are every line of 4 to 9 notes by step that turns once at most, from every degree', () => {
    const lines = (length: number): string[] => {
      // Every way of single steps up or down that changes its direction once at most.
      const ways = Array.from({ length: 2 ** (length - 1) }, (_, bits) =>
        Array.from({ length: length - 1 }, (_, nth) => ((bits >> nth) & 1 ? 1 : -1)),
      ).filter((way) => way.filter((step, nth) => nth > 0 && step !== way[nth - 1]).length <= 1);
      return Array.from({ length: 7 }, (_, start) =>
        ways.map((way) =>
          [
            start,
            ...way.map((_, nth) => start + way.slice(0, nth + 1).reduce((a: number, b) => a + b, 0)),
          ].join(),
        ),
      ).flat();
    };
    for (let length = 4; length <= 9; length++) {
      const found = fragmentsOf(7, { from: length, to: length }).map((own) =>
        fragmentPlaces(own)
          .map(({ at }) => at)
          .join(),
      );
      expect(found.toSorted()).toEqual(lines(length).toSorted());
    }
  });

  it('keep to the starts and turning points that are asked for', () => {
    const some = fragmentsOf(7, { from: 5, to: 6, starts: [0, 4], turns: [3] });
    expect(some.length).toBe(2 * 2 * 2);
    for (const { start, turn } of some) expect([[0, 4].includes(start), turn]).toEqual([true, 3]);
  });
});

describe('a fragment against its scale', () => {
  const G = scaleLadder(parseTonic('G'), 'major');
  const right = player('right');
  const whole = new ScaleFingering(G, right);

  /** `common practice`: a fragment that turns at F sharp takes less movement with 3 there than with 4. */
  it('in G turns at F sharp with 3, where the scale has 4', () => {
    const fragment: Fragment = { start: 4, length: 5, turn: 3, first: 'up' };
    const { easiest, scale, easiestMovement, scaleMovement, differs } = compare(G, fragment, 4, right, whole);
    expect([easiest[2], scale[2], differs]).toEqual([3, 4, true]);
    expect(easiestMovement).toBeLessThan(scaleMovement);
  });

  it('never moves more by its easiest fingering; what the terms tell adds up to the difference', () => {
    for (const fragment of fragmentsOf(7, { from: 4, to: 7, starts: [0, 3, 6] })) {
      const own = compare(G, fragment, 4, right, whole);
      expect(own.easiestMovement).toBeLessThanOrEqual(own.scaleMovement + 1e-6);
      const told = own.dearer.reduce((sum, { mm }) => sum + mm, 0);
      // Terms below a millimetre, and those by which the scale's digits are cheaper, are not told.
      if (own.dearer.length > 0) expect(told).toBeGreaterThan(own.scaleMovement - own.easiestMovement - 5);
    }
  });

  it('is measured as the search measures these keys with these digits', () => {
    const fragment: Fragment = { start: 0, length: 6, turn: 4, first: 'up' };
    const own = compare(G, fragment, 4, right, whole);
    const keys = [67, 69, 71, 72, 71, 69];
    const { line } = melody('right', keys, own.scale.join(''), 0.375);
    const fixed = {
      ...line,
      slices: line.slices.map((slice, at) => ({
        ...slice,
        struck: slice.struck.map((key) => ({
          ...key,
          diatonic: [39, 40, 41, 42, 41, 40][at]!,
          fixed: own.scale[at]!,
        })),
      })),
    };
    const { fingering } = fingerLine(fixed, model, { by: 'movement' });
    const movement = fingering.slices.reduce((sum, slice) => sum + slice.movement, 0);
    expect(own.scaleMovement).toBeCloseTo(movement, 3);
  });

  it('is the mirror image of the other hand’s: C major reflected about D', () => {
    const C = scaleLadder(parseTonic('C'), 'major');
    const [one, other] = [player('right'), player('left')];
    const [wholeRight, wholeLeft] = [new ScaleFingering(C, one), new ScaleFingering(C, other)];
    for (const fragment of fragmentsOf(7, { from: 5, to: 6, starts: [1] })) {
      const mirrored: Fragment = { ...fragment, first: fragment.first === 'up' ? 'down' : 'up' };
      const [a, b] = [compare(C, fragment, 4, one, wholeRight), compare(C, mirrored, 4, other, wholeLeft)];
      expect(b.easiestMovement).toBeCloseTo(a.easiestMovement, 6);
      expect(b.easiest).toEqual(a.easiest);
    }
  });
});

describe('a sheet of fragments', () => {
  const options = { keys: ['B'], fragments: { from: 6, to: 6, starts: [2] }, hands: 'right' } as const;

  it('prints the easiest digits, and the scale’s where those differ', () => {
    const { output, report } = drill(options);
    const B = scaleLadder(parseTonic('B'), 'major');
    const whole = new ScaleFingering(B, player('right'));
    const expected = fragmentsOf(7, options.fragments).flatMap((fragment) => {
      const own = compare(B, fragment, 4, player('right'), whole);
      return own.differs ? [...own.easiest, ...own.scale] : own.easiest;
    });
    const [line] = readLines(output, { staff: { right: [1] } }).lines;
    expect(line!.line.slices.map(({ struck }) => struck[0]!.fixed)).toEqual(expected);
    expect(report.lines[0]!.slices.map(({ fingers }) => fingers[0])).toEqual(expected);
    expect(report.warnings).toEqual([]);
  });

  it('has no digits where none are asked for', () => {
    expect(drill({ ...options, digits: 'none' }).output).not.toContain('<fingering');
  });
});

describe('awkward fragments', () => {
  it('are those that cost most, worst first, as a search through all of them finds', () => {
    const fragments = { from: 5, to: 6 };
    const { output, contents } = drill({ keys: ['E', 'Ab'], awkward: 5, fragments });
    const all = ['E', 'Ab'].flatMap((key) => {
      const ladder = scaleLadder(parseTonic(key), 'major');
      return (['right', 'left'] as const).flatMap((hand) => {
        const whole = new ScaleFingering(ladder, player(hand));
        return fragmentsOf(7, fragments).map((fragment) => {
          const octave = fragmentOctave(ladder, fragment) - (hand === 'right' ? 0 : 1);
          const { easiestMovement, scaleMovement } = compare(ladder, fragment, octave, player(hand), whole);
          return scaleMovement - easiestMovement;
        });
      });
    });
    const worst = all.toSorted((a, b) => b - a).slice(0, 5);
    const printed = [...output.matchAll(/easiest: (\d+) mm[\s\S]*?as in the scale: (\d+) mm/g)];
    expect(printed.length).toBe(5);
    expect(contents.length).toBe(5);
    // Both numbers are rounded.
    printed.forEach(([, easiest, scale], nth) => {
      expect(Math.abs(Number(scale) - Number(easiest) - worst[nth]!)).toBeLessThanOrEqual(1);
    });
  });

  it('are refused where there are none', () => {
    const fragments = { from: 4, to: 4, turns: [5] };
    expect(() => drill({ awkward: 3, fragments })).toThrow(/nothing to print/);
  });
});

function fragmentOctave(ladder: ReturnType<typeof scaleLadder>, fragment: Fragment): number {
  const places = fragmentPlaces(fragment).map(({ at }) => at);
  const [least, most] = [Math.min(...places) - 7, Math.max(...places)];
  const middle = (octave: number) => {
    const key = (place: number) => {
      const { diatonic, alter } = ladder.at(place, octave, 'up');
      return 12 * (Math.floor(diatonic / 7) + 1) + [0, 2, 4, 5, 7, 9, 11][((diatonic % 7) + 7) % 7]! + alter;
    };
    return Math.abs((key(least) + key(most)) / 2 - 64);
  };
  return [2, 3, 4, 5, 6].reduce((best, own) => (middle(own) <= middle(best) ? own : best));
}
