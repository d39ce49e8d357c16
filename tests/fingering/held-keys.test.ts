import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { SUBSTITUTION_SECONDS } from '#core/fingering/view/held-keys.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import type { Finger, Hand } from '#core/score/model.js';
import { type Happening, happenings, lineOf, type Press } from './lines.js';

const model = handModel();
const HANDS = ['right', 'left'] as const;

const press = (key: number, holds = 0): Press => ({ key, holds, pedalled: false });
const together = (seconds: number, ...presses: readonly Press[]): Happening => ({
  presses,
  seconds,
  rest: 0,
  phraseStart: false,
  grace: false,
  onBeat: false,
});
const keysOf = (events: readonly Happening[], hand: Hand): (readonly number[])[] =>
  viewLine(lineOf(hand, events), model, false).map(({ keys }) => keys);

/** The fingers that a view has for a key. */
function fingersOn(view: SliceView, key: number): readonly Finger[] {
  return view.candidates.map(({ fingers }) => fingers[view.keys.indexOf(key)]!);
}

it.each(HANDS)('a key once let go stays let go: %s hand', (hand) => {
  const far = [together(0.3, press(55, 4)), ...[60, 74, 60, 62].map((key) => together(0.3, press(key)))];
  expect(keysOf(far, hand)).toEqual([[55], [55, 60], [74], [60], [62]]);
});

it.each(HANDS)('a held key is let go where no finger that struck it reaches on in time: %s hand', (hand) => {
  const events = (seconds: number) => [
    together(0.5, press(55), press(57), press(59), press(60, 1), press(62)),
    together(seconds, press(72)),
  ];
  // 60 was struck by 4.
  expect(keysOf(events(0.2), hand).at(-1)).toEqual([72]);
  expect(keysOf(events(0.5), hand).at(-1)).toEqual([60, 72]);
});

it.each(HANDS)('a key that the hand could not take is not held: %s hand', (hand) => {
  const events = [together(0.5, press(48, 1), press(67, 1)), together(0.5, press(50))];
  const [first, second] = keysOf(events, hand);
  expect(first).toHaveLength(1);
  expect(second).toHaveLength(first![0] === 48 ? 2 : 1);
});

it('keeps a held key as long as one finger can hold it, or has time to take over, and never takes it back', () => {
  fc.assert(
    fc.property(
      happenings({ keys: 3, holds: 4, ambit: 19 }, 2, 12),
      fc.constantFrom(...HANDS),
      (events, hand) => {
        const line = lineOf(hand, events);
        const views = viewLine(line, model, false);
        for (const { held, index, seconds } of line.slices) {
          for (const { key, since } of held) {
            const seen = hand === 'left' ? mirrorKey(key) : key;
            const down = (at: number) => views[at]!.keys.includes(seen);
            if (!down(index)) continue;
            for (let at = since!; at <= index; at++) expect(down(at)).toBe(true);
            const before = fingersOn(views[index - 1]!, seen);
            if (seconds < SUBSTITUTION_SECONDS)
              expect(fingersOn(views[index]!, seen).some((f) => before.includes(f))).toBe(true);
          }
        }
      },
    ),
  );
});
