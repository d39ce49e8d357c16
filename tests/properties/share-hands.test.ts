import { annotate, clear, type Report } from '@handline/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type HandModel, handModel } from '#core/anatomy/hand.js';
import { reach } from '#core/anatomy/reach.js';
import { fingerLine } from '#core/fingering/finger.js';
import type { SliceKey } from '#core/hands/line.js';
import { isBlack, keyX, mirrorKey } from '#core/keyboard/key-plan.js';
import { settingsOf } from '#core/pipeline/settings.js';
import { sharedLines } from '#core/pipeline/share-hands.js';
import type { Finger, Hand } from '#core/score/model.js';
import { attributes, backup, note, onePart, readText, rest } from '../musicxml/read-source.js';
import { rounds } from '../rounds.js';

const NAMES = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'G#', 'A', 'Bb', 'B'];
const pitchOf = (key: number) => `${NAMES[key % 12]}${Math.floor(key / 12) - 1}`;

/** Sixteenths, and the keys of a chord; none for a rest. */
interface Event {
  readonly length: 2 | 4 | 8;
  readonly keys: readonly number[];
  readonly digit: boolean;
}

const events = (lowest: number): fc.Arbitrary<readonly Event[]> =>
  fc.array(
    fc.record({
      length: fc.constantFrom<Event['length']>(2, 4, 4, 8),
      digit: fc.boolean().map((first) => first && lowest % 2 === 1),
      keys: fc
        .tuple(
          fc.integer({ min: lowest, max: lowest + 24 }),
          fc.uniqueArray(fc.integer({ min: 1, max: 20 }), { maxLength: 3 }),
          fc.integer({ min: 0, max: 5 }),
        )
        .map(([low, others, silent]) =>
          silent === 0 ? [] : [low, ...others.map((up) => low + up).toSorted((a, b) => a - b)],
        ),
    }),
    { minLength: 1, maxLength: 12 },
  );

/** A voice of a measure of as many sixteenths as its events have. */
function voice(all: readonly Event[], staff: 1 | 2, length: number): string {
  const name = staff === 1 ? '1' : '5';
  const own = all
    .map(({ length: duration, keys, digit }) =>
      keys.length === 0
        ? rest(duration, name, staff)
        : keys
            .map((key, nth) =>
              note(pitchOf(key), duration, {
                staff,
                voice: name,
                lead: nth > 0 ? '<chord/>' : '',
                notations: digit && nth === 0 ? '<technical><fingering>2</fingering></technical>' : '',
              }),
            )
            .join(''),
    )
    .join('');
  const rests = length - all.reduce((sum, event) => sum + event.length, 0);
  return rests > 0 ? own + rest(rests, name, staff) : own;
}

function scoreOf(right: readonly Event[], left: readonly Event[]): string {
  const lengthOf = (all: readonly Event[]) => all.reduce((sum, { length }) => sum + length, 0);
  const length = Math.max(lengthOf(right), lengthOf(left));
  return onePart([attributes() + voice(right, 1, length) + backup(length) + voice(left, 2, length)]);
}

const scores = fc.constantFrom(0, 1).chain((odd) => fc.tuple(events(54 + odd), events(36 + odd)));
const spans = fc.constantFrom('small', '7th', '8th', 'medium');

/** Whether these fingers can hold these keys: ascending with them, every pair within reach, the thumb on two neighbours at most. */
function canHold(keys: readonly number[], fingers: readonly (number | null)[], side: Hand, hand: HandModel) {
  const all = keys
    .map((key, nth) => ({ key: side === 'left' ? mirrorKey(key) : key, finger: fingers[nth] as Finger }))
    .toSorted((a, b) => a.key - b.key);
  return all.every((high, at) =>
    all.slice(0, at).every((low) => {
      if (low.finger === high.finger)
        return low.finger === 1 && high.key - low.key <= 2 && isBlack(low.key) === isBlack(high.key);
      if (low.finger > high.finger) return false;
      const { minPractical, maxPractical } = reach(hand, low.finger, high.finger);
      const way = keyX(high.key) - keyX(low.key);
      return way <= maxPractical + 5 && way >= minPractical - 13;
    }),
  );
}

const strikes = ({ lines }: Report) =>
  lines
    .flatMap(({ slices }) => slices.flatMap(({ beat, keys }) => keys.map((key) => `${beat} ${key}`)))
    .toSorted();
const beyond = ({ lines }: Report) => lines.flatMap(({ unreachable }) => unreachable);
const wordsIn = (text: string) => [...text.matchAll(/<words[^>]*>[lr]\.h\.<\/words>/g)].length;

/** No key that is taken is let go before its time, nor any other for its sake. */
function expectHeld(text: string, span: string): void {
  const { score } = readText(text);
  const settings = settingsOf({ span, shareHands: true });
  const { pairs, shares } = sharedLines(score, settings);
  for (const { pair, takenBy, taken } of shares) {
    const line = pairs[pair]![takenBy]!;
    const { slices } = fingerLine(line, settings.model[takenBy]).fingering;
    const isTaken = ({ notes }: SliceKey) => notes.some((note) => taken.has(note));
    for (const { index, struck, held } of line.slices) {
      if (!struck.some(isTaken) && !held.some(isTaken)) continue;
      expect([...slices[index]!.struck, ...slices[index]!.held]).not.toContain(null);
    }
  }
}

describe('hands that share chords', () => {
  it('have a playable fingering for what they share, play every key of the score, and leave the notes as they are', () => {
    let [chords, sharing] = [0, 0];
    fc.assert(
      fc.property(scores, spans, ([right, left], span) => {
        const score = scoreOf(right, left);
        const options = { span, layers: [] };
        const before = annotate(score, options);
        const after = annotate(score, { ...options, shareHands: true });
        expect(clear(after.output).output).toBe(score);
        const shared = after.report.lines.flatMap((line) =>
          line.shared!.filter(({ takenBy }) => takenBy === line.hand),
        );
        expect(wordsIn(after.output)).toBe(shared.length);
        if (shared.length === 0) {
          expect(after.output).toBe(before.output);
          return;
        }
        chords += shared.length;
        sharing += 1;
        // A key that both hands strike together may be one hand's now.
        expect([...new Set(strikes(after.report))]).toEqual([...new Set(strikes(before.report))]);
        expect(beyond(after.report).length).toBeLessThanOrEqual(beyond(before.report).length);
        for (const { hand, slices, shared: own } of after.report.lines) {
          for (const { beat } of own!) {
            const { keys, fingers } = slices.find((slice) => slice.beat === beat)!;
            expect(fingers).not.toContain(null);
            expect(canHold(keys, fingers, hand, handModel(span))).toBe(true);
          }
        }
        for (const { code, message } of after.report.warnings) {
          const places = shared.map(({ beat }) => `beat ${beat}: `);
          const isThere = places.some((place) => message.startsWith(place));
          expect({ code, isThere: isThere && /cannot reach|contradict/.test(message) }).toEqual({
            code,
            isThere: false,
          });
        }
        expectHeld(score, span);
      }),
      rounds(50, 750),
    );
    console.log(`${sharing} scores share ${chords} chords`);
    expect(sharing).toBeGreaterThan(15);
  });

  it('mark a score anew as they marked it first', () => {
    fc.assert(
      fc.property(scores, spans, ([right, left], span) => {
        const options = { span, shareHands: true };
        const once = annotate(scoreOf(right, left), options).output;
        expect(annotate(once, options).output).toBe(once);
      }),
      rounds(30),
    );
  });
});
