import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { toNumber } from '#core/numeric/fraction.js';
import type { Note } from '#core/score/model.js';
import { readText } from '../musicxml/read-source.js';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';

/** When a note's written sound ends, its tied continuations included, found by following the chain forwards. */
function end(notes: readonly Note[], note: Note): number {
  const next = notes.find((other) => other.tiedFrom === note.id);
  return next === undefined ? toNumber(note.onset) + toNumber(note.duration) : end(notes, next);
}

describe('lines of generated scores', () => {
  it('play every struck note of a piano part once, in order, and hold what still sounds', () => {
    let [notesSeen, heldSeen, graceSeen] = [0, 0, 0];
    fc.assert(
      fc.property(scoreModel, (model) => {
        const { score } = readText(toXml(model));
        const ids = score.parts.map((part) => part.id);
        const { lines } = buildLines(score, { parts: ids });
        for (const part of score.parts) {
          const own = lines.filter((line) => line.part === part.index);
          const played = own.flatMap((line) =>
            line.slices.flatMap(({ struck }) => struck.flatMap(({ notes }) => notes)),
          );
          const struck = part.notes.filter((note) => note.tiedFrom < 0).map((note) => note.id);
          expect([...played].sort((a, b) => a - b)).toEqual(struck);
          notesSeen += struck.length;
        }
        for (const { part, slices } of lines) {
          const { notes } = score.parts[part]!;
          slices.forEach((slice, index) => {
            expect(slice.index).toBe(index);
            const onset = toNumber(slice.onset);
            const before = slices[index - 1];
            if (before !== undefined) expect(toNumber(before.onset)).toBeLessThanOrEqual(onset);
            expect(slice.seconds).toBeGreaterThanOrEqual(0);
            expect(slice.free).toBeLessThanOrEqual(slice.seconds + 1e-9);
            for (const list of [slice.struck, slice.held]) {
              list.forEach((key, at) => {
                expect(key.key).toBeGreaterThan(list[at - 1]?.key ?? 0);
                expect(key.seconds).toBeGreaterThanOrEqual(0);
                for (const id of key.notes) expect(notes[id]?.key).toBe(key.key);
              });
            }
            const down = new Set([...(before?.struck ?? []), ...(before?.held ?? [])].map(({ key }) => key));
            const held = new Set(slice.held.map(({ key }) => key));
            expect(new Set(slice.released)).toEqual(new Set([...down].filter((key) => !held.has(key))));
            if (held.size > 0) expect(slice.free).toBe(0);
            for (const key of slice.held) {
              const origin = slices[key.since as number]?.struck.find((other) => other.key === key.key);
              expect(origin?.notes).toEqual(key.notes);
              if (!slice.grace)
                expect(Math.max(...key.notes.map((id) => end(notes, notes[id]!)))).toBeGreaterThan(onset);
            }
            heldSeen += slice.held.length;
            if (slice.grace) graceSeen += 1;
            if (slice.grace) return;
            // The other way round: what was struck before and still sounds is held, unless it was struck again.
            const struck = new Set(slice.struck.map(({ key }) => key));
            for (const key of before?.struck ?? []) {
              const sounds = key.notes.some(
                (id) => end(notes, notes[id]!) > onset + 0.02 && !notes[id]!.staccato,
              );
              if (sounds && !struck.has(key.key)) expect(held.has(key.key)).toBe(true);
            }
          });
        }
      }),
      { numRuns: 200 },
    );
    console.log(
      `lines: ${notesSeen} struck notes, ${heldSeen} held keys, ${graceSeen} grace slices in 200 scores`,
    );
    expect(Math.min(notesSeen, heldSeen, graceSeen)).toBeGreaterThan(100);
  });

  it('have the same slices whatever the white space, line ends and order of the score', () => {
    fc.assert(
      fc.property(scoreModel, (model) => {
        const sketch = (timewise: boolean, newline: '\n' | '\r\n' | '') => {
          const text = toXml({ ...model, style: { ...model.style, timewise, newline } });
          const { score } = readText(text);
          return buildLines(score, { parts: score.parts.map((part) => part.id) }).lines;
        };
        const reference = sketch(false, '\n');
        expect(sketch(true, '\r\n')).toEqual(reference);
        expect(sketch(false, '')).toEqual(reference);
      }),
      { numRuns: 60 },
    );
  });
});
