import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { mark, read } from '../musicxml/write-source.js';
import { RUNS } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';
import { markPlan, marksOf } from './marks.js';

/** The elements that hold notes: every measure, in a timewise score every part of one. */
function holders(text: string): XmlElement[] {
  const root = parseTree(text, DEFAULT_LIMITS);
  const outer = root.children.filter(({ name }) => name === 'part' || name === 'measure');
  return outer.flatMap(({ children }) => children);
}

const notesOf = (holder: XmlElement) => holder.children.filter(({ name }) => name === 'note');
const isMember = (note: XmlElement | undefined) => note?.child('chord') !== undefined;
/** What digits say: the text, and whether it takes over from another. */
const fingersOf = (note: XmlElement) =>
  note
    .all('notations')
    .flatMap((notations) => notations.all('technical'))
    .flatMap((technical) => technical.all('fingering'))
    .map(
      (fingering) => fingering.text.trim() + (fingering.attribute('substitution') === 'yes' ? ' then' : ''),
    );

describe('where marks stand', () => {
  it('a cue right before the chord of its own note, at no other time, and with its staff', () => {
    let [cues, members] = [0, 0];
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const { score, elements } = read(original);
        // Numbered, so that each is known again whatever the user's own words say.
        const marks = marksOf(plan, score).cues.map((cue, at) => ({ ...cue, text: `cue ${at}` }));
        const after = holders(mark(original, { cues: marks }));
        const found = new Map<string, { direction: XmlElement; holder: number; notes: number }>();
        after.forEach(({ children }, holder) => {
          let notes = 0;
          for (const child of children) {
            if (child.name === 'note') notes += 1;
            const text =
              child.name === 'direction' ? child.child('direction-type')?.textOf('words') : undefined;
            if (text?.startsWith('cue ')) found.set(text, { direction: child, holder, notes });
          }
        });
        const starts = holders(original).map(({ span }) => span.start);
        for (const { part, note, text } of marks) {
          const own = elements[part]?.[note] as XmlElement;
          const holder = starts.indexOf(own.parent?.span.start as number);
          const notes = notesOf(own.parent as XmlElement);
          const place = notes.findIndex(({ span }) => span.start === own.span.start);
          const head = notes.findLastIndex((one, at) => at <= place && !isMember(one));
          const { direction, ...at } = found.get(text) as NonNullable<ReturnType<typeof found.get>>;
          expect(at).toEqual({ holder, notes: head });
          expect(direction.textOf('staff')).toBe(own.textOf('staff'));
          expect([undefined, own.textOf('voice')]).toContain(direction.textOf('voice'));
          expect(direction.child('offset')).toBeUndefined();
          if (place !== head) members += 1;
        }
        expect(found.size).toBe(marks.length);
        cues += marks.length;
      }),
      RUNS,
    );
    expect(Math.min(cues, members)).toBeGreaterThan(RUNS.numRuns / 2);
  });

  it('a digit in its own head of a chord, and nothing in any other', () => {
    let digits = 0;
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const { score, elements } = read(original);
        const marks = marksOf(plan, score).digits.map(({ part, note, finger, placement }) => ({
          part,
          note,
          finger,
          placement,
        }));
        const wanted = new Map(marks.map((one) => [elements[one.part]?.[one.note]?.span.start, one.finger]));
        const before = holders(original).flatMap(notesOf);
        const after = holders(mark(original, { digits: marks })).flatMap(notesOf);
        expect(after).toHaveLength(before.length);
        before.forEach((note, at) => {
          const finger = wanted.get(note.span.start);
          const theirs = fingersOf(note);
          // What is printed there already is not printed twice.
          const plain = theirs.includes(String(finger));
          const more = finger === undefined || plain ? [] : [String(finger)];
          expect(fingersOf(after[at] as XmlElement).sort()).toEqual([...theirs, ...more].sort());
          digits += more.length;
        });
      }),
      RUNS,
    );
    expect(digits).toBeGreaterThan(RUNS.numRuns);
  });
});
