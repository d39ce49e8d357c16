import fc from 'fast-check';
import { expect, it } from 'vitest';
import { sparseDigits } from '#core/fingering/sparse/print.js';
import { reconstruct } from '#core/fingering/sparse/reader.js';
import type { Finger, Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { happenings, lineOf } from './lines.js';
import { PlainReader } from './restated/reader.js';

const HANDS = fc.constantFrom<Hand>('right', 'left');
const digit = fc.constantFrom<Finger>(1, 2, 3, 4, 5);
const lines = fc.oneof(
  happenings({ keys: 1, holds: 0, ambit: 9 }, 1, 16),
  happenings({ keys: 3, holds: 2, ambit: 12 }, 1, 12),
  happenings({ keys: 3, holds: 0, ambit: 30 }, 1, 12),
);

/** Shapes that recur, as chords do that move along the keys. */
const parallel = fc.tuple(lines, fc.integer({ min: 1, max: 5 })).map(([events, step]) =>
  events.flatMap((event) => [
    event,
    {
      ...event,
      phraseStart: false,
      presses: event.presses.map((press) => ({ ...press, key: press.key + step })),
    },
  ]),
);

it('a reader plays by the plain five-finger rule, whatever is printed', () => {
  const printing = fc.array(fc.option(digit, { nil: null, freq: 2 }), { minLength: 1, maxLength: 53 });
  let read = 0;
  fc.assert(
    fc.property(
      HANDS,
      fc.oneof(lines, parallel),
      printing,
      printing,
      fc.boolean(),
      (hand, events, digits, others, taking) => {
        const line = lineOf(hand, events);
        let turn = 0;
        const next = (): number => turn++;
        const printed = line.slices.map(({ struck }) => ({
          struck: struck.map(() => {
            const nth = next();
            return nth % 3 === 0 ? digits[nth % digits.length]! : null;
          }),
          substitutions: struck.map((_, nth) => (taking && nth === 0 ? others[turn % others.length]! : null)),
        }));
        const reader = new PlainReader(line);
        const expected = line.slices.map((slice, at) =>
          reader.play(slice, printed[at]!.struck, printed[at]!.substitutions),
        );
        expect(reconstruct(line, printed)).toEqual(expected);
        expected.forEach((own, at) => {
          read += own.filter((finger, nth) => finger !== null && printed[at]!.struck[nth] === null).length;
        });
      },
    ),
    rounds(400),
  );
  expect(read).toBeGreaterThan(1000);
});

it('no fewer digits of a slice would do, and of as few the outer ones and those of the thumb’s side are printed', () => {
  let saved = 0;
  const fingers = fc.array(digit, { minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(HANDS, fc.oneof(lines, parallel), fingers, fc.boolean(), (hand, events, drawn, inOrder) => {
      const line = lineOf(hand, events);
      let turn = 0;
      const digits = line.slices.map(({ struck }) => {
        const own = struck.map(() => drawn[turn++ % drawn.length]!);
        // Keys ascend; so do the fingers of a right hand.
        const sorted = [...own].sort((a, b) => (hand === 'right' ? a - b : b - a));
        return inOrder ? sorted : own;
      });
      const slices = digits.map((struck) => ({ struck, held: [], terms: {}, movement: 0 }));
      const reader = new PlainReader(line);
      sparseDigits(line, { slices }).forEach(({ struck: printed }, at) => {
        const [slice, wanted] = [line.slices[at]!, digits[at]!];
        const sets = Array.from({ length: 2 ** wanted.length }, (_, bits) =>
          wanted.map((finger, nth) => ((bits >> nth) & 1 ? finger : null)),
        ).filter((set) => {
          const some = at === 0 || slice.phraseStart;
          return (
            (!some || set.some((finger) => finger !== null)) &&
            String(reader.read(slice, set)) === String(wanted)
          );
        });
        const count = (set: readonly (Finger | null)[]) => set.filter((finger) => finger !== null).length;
        const outside = (set: readonly (Finger | null)[]) =>
          [set[0], set.at(-1)].filter((finger) => finger !== null).length;
        // The thumb plays the lowest key of the right hand, the highest of the left.
        const side = (set: readonly (Finger | null)[]) =>
          (hand === 'right' ? set : set.toReversed()).map((finger) => (finger === null ? 'b' : 'a')).join('');
        sets.sort((a, b) => count(a) - count(b) || outside(b) - outside(a) || (side(a) < side(b) ? -1 : 1));
        expect(printed).toEqual(sets[0]);
        if (count(printed) < wanted.length) saved++;
        reader.play(slice, printed);
      });
    }),
    rounds(200),
  );
  expect(saved).toBeGreaterThan(50);
});
