import { describe, expect, it } from 'vitest';
import { compare, markReview, readLines, reviewText } from '#core/index.js';
import type { Finger } from '#core/score/model.js';
import { reviewOf, scoreOf } from './score.js';

/** Digits for the right hand from the first measure on. */
const trial = (...digits: (readonly Finger[])[]) => ({ measure: '1', hand: 'right' as const, digits });

describe('second fingerings', () => {
  const onsets = 'C4=1 D4=2 E4=2 F4=3 G4=4';

  it('are compared by kind and by onset, and said to be tried in the hand', () => {
    const found = reviewOf(
      'right',
      onsets,
      {},
      {
        tries: [{ measure: '1', beat: 2, hand: 'right', digits: [[3], [4], [5]] }],
      },
    );
    const [own] = found.comparisons;
    expect(own!.more).toBeLessThan(-60);
    expect(own!.first['one-finger']).toBeGreaterThan(own!.second['one-finger']);
    expect(own!.differs.map(({ printed, finger }) => [printed, finger])).toEqual([
      [2, 3],
      [3, 4],
      [4, 5],
    ]);
    expect(own!.text).toMatch(/the others take \d+ mm less, mostly one finger again/);
    expect(found.advice).toMatch(/whatever feels better in the hand/);
    const marked = markReview(scoreOf({ right: onsets }), found);
    expect(marked.match(/>\([345]\)<\/words>/g)).toHaveLength(3);
    expect(marked).not.toContain('alternate=');
  });

  it('are compared with the least movement where nothing is in print', () => {
    const open = reviewOf('right', 'C4 D4 E4 F4 G4', {}, { tries: [trial([3], [2], [1])] });
    expect(open.comparisons[0]!.digits).toBe(0);
    expect(open.comparisons[0]!.text).toMatch(
      /^right hand m\. 1: no digits in print; \d+ mm at least, \d+ mm with the other digits; /,
    );
    const text = reviewText(open, { title: 'a' });
    expect(text).not.toMatch(/printed/);
    expect(text).toMatch(/\n {2}little movement +\d/);
  });

  it('say into which note a crossing leads: fingers that change on one key do not cross', () => {
    const onOneKey = 'G4=3 F#4 F#4 F#4 F#4';
    const change = (...digits: Finger[]) =>
      reviewOf('right', onOneKey, {}, { tries: [trial([3], ...digits.map((digit): [Finger] => [digit]))] })
        .comparisons[0]!;
    const crossed = change(4, 3, 2, 1);
    expect(crossed.text).toMatch(/mostly crossings, most at F sharp \(m\. 1, beat 1½\)\.$/);
    expect(crossed.onsets.map(({ second }) => second.crossings > 0)).toEqual([
      false,
      true,
      false,
      false,
      false,
    ]);
    expect(change(2, 1, 2, 1).second.crossings).toBe(0);
  });

  it('of a second score are found where they differ; a score of other notes is refused', () => {
    const second = scoreOf({ right: 'C4=1 D4=2 E4=3 F4=4 G4=5' });
    const found = reviewOf('right', onsets, {}, { against: second });
    expect(found.comparisons).toHaveLength(1);
    const same = reviewOf('right', onsets, {}, { against: scoreOf({ right: onsets }) });
    expect(same.comparisons).toEqual([]);
    expect(() => reviewOf('right', onsets, {}, { against: scoreOf({ right: 'C4=1 D4=2' }) })).toThrow(
      /against/,
    );
  });

  it('cost what compare says of their lines', () => {
    const [own] = readLines(scoreOf({ right: onsets })).lines;
    const digits = (text: string) => ({
      slices: [...text].map((digit) => ({ struck: [Number(digit) as 1], held: [] })),
    });
    const { more, first, second, slices } = compare(own!.line, own!.hand, digits('12234'), digits('12345'));
    expect(more).toBeLessThan(-60);
    expect(slices).toHaveLength(5);
    expect(first.crossings + second.crossings).toBe(0);
  });
});
