import { describe, expect, it } from 'vitest';
import { compare, readLines, THRESHOLDS } from '#core/index.js';
import { isBlack, mirrorKey } from '#core/keyboard/key-plan.js';
import type { Finger, Hand } from '#core/score/model.js';
import { reviewOf, scoreOf } from './score.js';

const NAMES = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const;
const name = (key: number): string => `${NAMES[key % 12]}${Math.floor(key / 12) - 1}`;
/** Eighths a minute at which the forearm still follows each note. */
const FORM = { eighths: 240 };
const WITH_FOUR = [2, 3, 4, 3, 2] as const;
const WITH_THREE = [1, 2, 3, 2, 1] as const;

/** Every turn by step at a black key after a white one, two steps of a scale up and down again. */
const TURNS: readonly (readonly number[])[] = [60, 62, 64, 65, 67, 69, 71].flatMap((middle) =>
  [1, 2].flatMap((below) =>
    [1, 2].flatMap((above) => {
      const [low, turn] = [middle - below, middle + above];
      return below + above < 3 || !isBlack(turn) ? [] : [[low, middle, turn, middle, low]];
    }),
  ),
);

/** Pitch classes. */
const G_MAJOR: readonly number[] = [7, 9, 11, 0, 2, 4, 6];

const text = (keys: readonly number[], digits: readonly number[]): string =>
  keys.map((key, nth) => `${name(key)}=${digits[nth]}`).join(' ');

/** mm that 3 at the turn saves against 4 there. */
function saved(keys: readonly number[], hand: Hand): number {
  const score = scoreOf({ right: text(keys, WITH_FOUR) }, { ...FORM, mirrored: hand === 'left' });
  const [own] = readLines(score).lines;
  const [four, three] = [WITH_FOUR, WITH_THREE].map((digits) => ({
    slices: digits.map((finger: Finger) => ({ struck: [finger], held: [] })),
  }));
  return -compare(own!.line, own!.hand, four!, three!, own!.context).more;
}

// A fact of the trade, common practice: a fragment that turns at F sharp takes less movement with 3 there than with 4.
describe.each<Hand>(['right', 'left'])('a turn at a black key, %s hand', (hand) => {
  const offers = TURNS.map((keys) => {
    const turn = hand === 'right' ? keys[2]! : mirrorKey(keys[2]!);
    const finding = reviewOf(hand, text(keys, WITH_FOUR), FORM).findings.find(({ remedy }) =>
      remedy?.changes.some(({ key, finger, printed }) => key === turn && finger === 3 && printed === 4),
    );
    return { keys, finding };
  });

  it('in G major with 4 on F sharp: 3 is offered there, need not come out, and the printed one is called workable', () => {
    const { finding } = offers.find(({ keys }) => text(keys, WITH_FOUR).startsWith('D4=2 E4=3 F#4'))!;
    expect(finding).toMatchObject({ level: 'remark', hand });
    expect(finding!.text).toMatch(
      /Both work; with the printed fingering the forearm travels \d+ mm more in and out/,
    );
    expect(finding!.remedy!.text).toContain('3 then need not come out');
  });

  it('the same is found in at least three other keys, wherever it saves as much', () => {
    const found = offers.filter(({ finding }) => finding !== undefined);
    const elsewhere = found.filter(({ keys }) => keys.some((key) => !G_MAJOR.includes(key % 12)));
    expect(elsewhere.length).toBeGreaterThanOrEqual(3);
    for (const { finding } of found) expect(finding!.level).toBe('remark');
    for (const { keys, finding } of offers)
      expect([keys, finding !== undefined]).toEqual([keys, saved(keys, hand) >= THRESHOLDS.remark]);
  });
});
