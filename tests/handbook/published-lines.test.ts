import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { fingerLine } from '#core/fingering/finger.js';
import type { LineFingering } from '#core/fingering/result.js';
import { isBlack } from '#core/keyboard/key-plan.js';
import type { Criterion } from '#core/options/options.js';
import type { Finger, Hand } from '#core/score/model.js';
import { type Happening, lineOf } from '../fingering/lines.js';
import { CHROMATIC, FIVE_FINGER_THIRDS, SCALE_IN_THIRDS, SEVENTH_ARPEGGIOS } from './published-lines.js';

const HANDS: readonly Hand[] = ['right', 'left'];
const hand = handModel();

/** Keys by onset as the right hand sees them, 6 onsets a second, and digits that must be kept. */
function line(side: Hand, onsets: readonly (readonly number[])[], digits?: readonly string[]) {
  const events = onsets.map(
    (keys, at): Happening => ({
      presses: keys.map((key, nth) => ({
        key,
        holds: 0,
        pedalled: false,
        ...(digits && { fixed: Number(digits[at]![nth]) as Finger }),
      })),
      seconds: 1 / 6,
      rest: 0,
      phraseStart: false,
      grace: false,
      onBeat: at % 4 === 0,
    }),
  );
  return lineOf(side, events);
}

interface Told {
  /** From the lowest key of the right hand's view, by onset. */
  readonly digits: readonly string[];
  /** mm */
  readonly movement: number;
}

function told({ line: { hand: side }, slices }: LineFingering): Told {
  const digits = slices.map(({ struck }) => (side === 'left' ? struck.toReversed() : struck).join(''));
  return { digits, movement: slices.reduce((sum, own) => sum + own.movement, 0) };
}

const ours = (side: Hand, onsets: readonly (readonly number[])[], by: Criterion): Told =>
  told(fingerLine(line(side, onsets), hand, { by }).fingering);
const theirs = (side: Hand, onsets: readonly (readonly number[])[], digits: readonly string[]): Told =>
  told(fingerLine(line(side, onsets, digits), hand, { by: 'movement' }).fingering);

/** There and back, the turn played once. */
const back = <T>(list: readonly T[]): T[] => [...list, ...list.toReversed().slice(1)];
const single = (keys: readonly number[]): number[][] => back(keys).map((key) => [key]);

/** Prints ours beside the standards; mm of movement that ours saves against the cheapest of them, 0 where it is one of them. */
function saved(
  name: string,
  side: Hand,
  onsets: readonly (readonly number[])[],
  standards: readonly (readonly string[])[],
  by: Criterion,
): number {
  const own = ours(side, onsets, by);
  const all = standards.map((digits) => theirs(side, onsets, digits));
  for (const [nth, { digits }] of all.entries()) expect(digits).toEqual(standards[nth]);
  const least = Math.min(...all.map(({ movement }) => movement));
  const equal = all.some(({ digits }) => digits.join() === own.digits.join());
  console.log(
    `${name}, ${side} hand, by ${by}: ${own.digits.join(' ')}, ${own.movement.toFixed(1)} mm; ` +
      `standard ${all.map(({ digits, movement }) => `${digits.join(' ')} ${movement.toFixed(1)}`).join(', ')}${equal ? ', the same' : ''}`,
  );
  return equal ? 0 : least - own.movement;
}

const CRITERIA: readonly Criterion[] = ['usage', 'movement'];

describe.each(HANDS)('%s hand', (side) => {
  // Of the three, 2 on black keys moves least; ours takes B by 3 and C by 1 where that has 1 and 2.
  it.each([
    ['usage', 37],
    ['movement', 20],
  ] as const)(
    'the chromatic scale, by %s: at most %d mm more than the cheapest of three, far less than the others',
    (by, more) => {
      const onsets = single(Array.from({ length: 25 }, (_, nth) => 60 + nth));
      const forms = Object.values(CHROMATIC).map((digits) => back([...digits]));
      expect(saved('chromatic scale', side, onsets, forms, by)).toBeGreaterThan(-more);
      const others = [forms[0]!, forms[2]!];
      expect(saved('chromatic scale, other forms', side, onsets, others, by)).toBeGreaterThan(120);
    },
  );

  it('dominant seventh arpeggios are the standard ones, but for F sharp, which moves 48 mm less', () => {
    for (const [name, onsets, forms] of sevenths()) {
      const mm = saved(name, side, onsets, forms, 'usage');
      if (name === 'F sharp') expect(mm).toBeGreaterThan(45);
      else expect([name, mm]).toEqual([name, 0]);
    }
  });

  it('dominant seventh arpeggios by movement are the standard ones or move less', () => {
    const all = sevenths().map(([name, onsets, forms]) => saved(name, side, onsets, forms, 'movement'));
    expect(all.filter((mm) => mm === 0)).toHaveLength(11);
    // F sharp.
    expect(all.filter((mm) => mm > 25)).toHaveLength(1);
  });

  it.each([
    ['usage', -18],
    ['movement', 65],
  ] as const)('thirds, by %s: five fingers as printed; a scale saves %d mm at least', (by, least) => {
    const white = Array.from({ length: 30 }, (_, nth) => 60 + nth).filter((key) => !isBlack(key));
    const third = (nth: number) => [white[nth]!, white[nth + 2]!];
    expect(saved('five fingers', side, back([0, 1, 2]).map(third), [FIVE_FINGER_THIRDS], by)).toBe(0);
    const up = Array.from({ length: 14 }, (_, nth) => nth);
    const standard = back([...SCALE_IN_THIRDS, ...SCALE_IN_THIRDS]);
    expect(saved('scale in thirds', side, back(up).map(third), [standard], by)).toBeGreaterThan(least);
  });

  // Octaves: 5 on white keys, 4 or 5 on black ones (Hanon, The Virtuoso Pianist, 1873, No. 53, from memory).
  it.each([
    ['major', [0, 2, 4, 5, 7, 9, 11, 12], 50],
    ['chromatic', Array.from({ length: 13 }, (_, nth) => nth), 120],
  ] as const)(
    'octaves of %s scales have 5 on white keys, and 4 on black ones mostly',
    (name, steps, least) => {
      for (const by of CRITERIA) {
        let [fours, black] = [0, 0];
        for (let tonic = 48; tonic < 60; tonic++) {
          const onsets = back(steps.map((step) => tonic + step)).map((key) => [key, key + 12]);
          ours(side, onsets, by).digits.forEach((digits, at) => {
            const isOnBlack = isBlack(onsets[at]![0]!);
            expect(isOnBlack ? ['14', '15'] : ['15']).toContain(digits);
            if (isOnBlack) black++;
            if (digits === '14') fours++;
          });
        }
        console.log(
          `octaves, ${name} scales, ${side} hand, by ${by}: ${fours} of ${black} black ones by 1 4`,
        );
        if (by === 'usage') expect(fours).toBeGreaterThan(least);
      }
    },
  );
});

/** Two octaves there and back; before the first thumb, the fingers next to it may play, and at the turn the fifth. */
function sevenths(): (readonly [
  name: string,
  onsets: readonly (readonly number[])[],
  forms: readonly (readonly string[])[],
])[] {
  return Object.entries(SEVENTH_ARPEGGIOS).map(([name, [root, group]]) => {
    const one = [0, 4, 7, 10].map((tone) => root + tone);
    const onsets = single([...one, ...one.map((key) => key + 12), root + 24]);
    const first = [...group.slice(0, group.indexOf('1'))].map((_, nth) => String(nth + 2)).join('');
    const near = first + group.slice(first.length);
    const last = group[0] === '1' ? '5' : group[0]!;
    return [
      name,
      onsets,
      [`${group}${group}${last}`, `${near}${group}${last}`].map((digits) => back([...digits])),
    ];
  });
}
