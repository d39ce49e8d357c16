import fc from 'fast-check';
import type { CueMark, DigitMark, Marks } from '#core/musicxml/marks/edit.js';
import type { Finger, Score } from '#core/score/model.js';

/** How to mark some score: choices used round and round over its notes. */
export interface MarkPlan {
  readonly fingers: readonly Finger[];
  /** Per note: 0 nothing, 1 digit, 2 to 4 with substitution; 5 a cue alone, 6 cue and digit. */
  readonly kinds: readonly number[];
  readonly texts: readonly string[];
  readonly replaceDigits: boolean;
  readonly legend: string | undefined;
}

const finger = fc.constantFrom<Finger[]>(1, 2, 3, 4, 5);

export const markPlan: fc.Arbitrary<MarkPlan> = fc.record({
  fingers: fc.array(finger, { minLength: 1, maxLength: 7 }),
  kinds: fc.array(fc.nat(6), { minLength: 1, maxLength: 11 }),
  texts: fc.array(
    fc.oneof(
      fc.constantFrom(
        'in',
        'out',
        'thumb under & in',
        'von außen ↗',
        'a ?> b',
        'thumb passes\nin',
        '<x> "q" \'s\'',
        ' two  spaces ',
      ),
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }),
    ),
    { minLength: 1, maxLength: 4 },
  ),
  replaceDigits: fc.boolean(),
  legend: fc.option(fc.constantFrom('in: towards the fallboard\nout: away from it', 'in & out ?>'), {
    nil: undefined,
  }),
});

export function marksOf(plan: MarkPlan, score: Score): Marks {
  const digits: DigitMark[] = [];
  const cues: CueMark[] = [];
  let turn = 0;
  const pick = <T>(list: readonly T[], at: number): T => list[at % list.length] as T;
  for (const [part, { notes }] of score.parts.entries()) {
    for (const note of notes) {
      const kind = pick(plan.kinds, turn);
      const placement = note.staff === 1 ? 'above' : 'below';
      const target = { part, note: note.id, placement } as const;
      if (kind >= 5) {
        // Another voice, staff or a time before may be among them.
        const other = notes[note.id + ((7 * turn) % 9) - 2];
        const dashesTo = turn % 2 === 0 && other !== undefined && { dashesTo: other.id };
        cues.push({ ...target, text: pick(plan.texts, turn), ...dashesTo });
      }
      if (kind !== 0 && kind !== 5) {
        digits.push({
          ...target,
          finger: pick(plan.fingers, turn),
          ...(kind >= 2 && kind <= 4 ? { substitution: pick(plan.fingers, turn + 1) } : {}),
        });
      }
      turn++;
    }
  }
  const legend = plan.legend === undefined ? {} : { legend: plan.legend };
  return { digits, cues, replaceDigits: plan.replaceDigits, ...legend };
}
