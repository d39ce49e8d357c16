import { describe, expect, it } from 'vitest';
import { compare, type Line, type Review, readLines, review } from '#core/index.js';
import { CAUSES } from '#core/review/causes/cause.js';
import type { Finger, Hand } from '#core/score/model.js';
import { CAUSE_PASSAGES, GOOD_PASSAGES, HANDS_IN_THE_WAY, THUMB_UNDER } from './passages.js';
import { reviewOf, scoreOf } from './score.js';

const HANDS: readonly Hand[] = ['right', 'left'];

/** The digits of a line, some of them changed. */
function digitsWith(line: Line, changes: ReadonlyMap<number, Finger>) {
  let note = 0;
  return {
    slices: line.slices.map(({ struck }) => ({
      struck: struck.map(({ fixed }) => changes.get(note++) ?? fixed ?? null),
      held: [],
    })),
  };
}

/** mm by which a line with the remedy's digits moves more, recomputed from the score. */
function moreWithRemedy(score: string, hand: Hand, { findings }: Review, number: number): number {
  const own = readLines(score).lines.find(({ line }) => line.hand === hand)!;
  const starts = [...score.matchAll(/<note>/g)].map(({ index }) => index);
  const { remedy } = findings.find((finding) => finding.number === number)!;
  const flat = own.line.slices.flatMap(({ struck }) => struck);
  const changes = new Map<number, Finger>();
  for (const { note, finger } of remedy!.changes) {
    const id = pitchedIndex(score, starts, note.start);
    changes.set(
      flat.findIndex(({ notes }) => notes.includes(id)),
      finger,
    );
  }
  const printed = digitsWith(own.line, new Map());
  return compare(own.line, own.hand, printed, digitsWith(own.line, changes), own.context).more;
}

/** Which note of the part, rests not counted, begins at an offset. */
function pitchedIndex(score: string, starts: readonly number[], at: number): number {
  return starts.filter((start) => start < at && !score.startsWith('<note><rest/>', start)).length;
}

describe.each(HANDS)('causes, %s hand', (hand) => {
  describe.each(CAUSE_PASSAGES)(
    '$cause',
    ({ cause, onsets, nearMiss, at, eighths, nearMissEighths, left }) => {
      const mirrored = hand === 'left' && left === undefined;
      const texts = hand === 'left' && left ? left : [onsets, nearMiss];
      const [score, near] = texts.map((text, nth) => {
        const pace = nth === 1 ? (nearMissEighths ?? eighths) : eighths;
        const form = { mirrored, ...(pace !== undefined && { eighths: pace }) };
        return scoreOf(hand === 'left' && left ? { left: text } : { right: text }, form);
      }) as [string, string];

      it('is named at its note, and the remedy moves less', () => {
        const found = review(score);
        const named = found.findings.find((own) => own.cause === cause);
        expect(named).toMatchObject({ hand, measure: at[0], beat: at[1] });
        expect(named!.remedy!.saved).toBeGreaterThan(0);
        expect(named!.remedy!.changes.length).toBeGreaterThan(0);
        expect(moreWithRemedy(score, hand, found, named!.number)).toBeLessThan(0);
        expect(score.startsWith('<note>', named!.note.start)).toBe(true);
      });

      it('is not named where it is nearly so', () => {
        expect(review(near).findings.map((own) => own.cause)).not.toContain(cause);
      });
    },
  );

  it('hands-in-the-way is named where the thumbs would lie above one another, and the remedy moves less', () => {
    const { right, left, far } = HANDS_IN_THE_WAY;
    const mirrored = hand === 'left';
    const score = scoreOf({ right, left }, { mirrored });
    const found = review(score);
    const [named] = found.findings.filter(({ cause }) => cause === 'hands-in-the-way');
    expect(named).toMatchObject({ hand, measure: '1', beat: 1 });
    expect(moreWithRemedy(score, hand, found, named!.number)).toBeLessThan(0);
    const apart = review(scoreOf({ right, left: far }, { mirrored }));
    expect(apart.findings.map(({ cause }) => cause)).not.toContain('hands-in-the-way');
  });

  it.each(THUMB_UNDER)(
    'a thumb that passes under the finger on a held key loses no key: %s, but %s does',
    (onsets, far) => {
      const causes = (text: string) =>
        review(scoreOf({ right: text }, { mirrored: hand === 'left' })).findings.map(({ cause }) => cause);
      const told = ['held-key-lost', 'unholdable'];
      expect(causes(onsets).filter((cause) => told.includes(cause))).toEqual([]);
      expect(causes(far).filter((cause) => told.includes(cause))).not.toEqual([]);
    },
  );

  it.each(GOOD_PASSAGES)('nothing above a remark is said of %s', (onsets) => {
    const found = reviewOf(hand, onsets);
    expect(found.digits).toBe(found.notes);
    expect(found.findings.filter(({ level }) => level !== 'remark')).toEqual([]);
  });
});

it('every cause has a passage', () => {
  const told = [...CAUSE_PASSAGES.map(({ cause }) => cause), 'hands-in-the-way'];
  expect(told.toSorted()).toEqual(CAUSES.toSorted());
  expect(GOOD_PASSAGES.length).toBeGreaterThanOrEqual(20);
});
