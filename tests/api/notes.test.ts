import { readFileSync } from 'node:fs';
import { annotate, clear, compactReport, type NoteReport, type Report, readLines } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { digitsInPrint } from './in-print.js';

const PATHS = [
  ...TUNES.filter((name) => /^(?:demo|page|write)\/.*(?:musicxml|xml)$/.test(name)).map(
    (name) => `${FIXTURES}${name}`,
  ),
  ...editions(2, 0.4).filter((path) => !path.endsWith('.mxl')),
];

const notesOf = ({ lines }: Report): NoteReport[] =>
  lines.flatMap(({ slices }) => slices.flatMap(({ notes }) => notes));

const value = (note: string, element: string): string | undefined =>
  note.match(new RegExp(`<${element}[^>]*>\\s*([^<]*?)\\s*</${element}>`))?.[1];

/** Quarter notes of the value that the time signature before a note counts. */
function quartersOfBeat(text: string, offset: number): number {
  const at = text.lastIndexOf('<beat-type>', offset);
  return at < 0 ? 1 : 4 / Number.parseInt(text.slice(at + '<beat-type>'.length), 10);
}

describe.each(PATHS.map((path) => [path.slice(path.lastIndexOf('/') + 1), path] as const))(
  '%s',
  (_, path) => {
    const text = readFileSync(path, 'utf8').replace(/^\uFEFF/, '');
    const { output, report } = annotate(text);
    const notes = notesOf(report);

    it('every note is where its offset and line say, with its staff and voice', () => {
      expect(notes.length).toBeGreaterThan(0);
      for (const { offset, line, staff, voice } of notes) {
        const note = text.slice(offset, text.indexOf('</note>', offset));
        expect(note).toMatch(/^<note[\s>]/);
        expect(text.slice(0, offset).split(/\r\n|\r|\n/).length).toBe(line);
        expect(Number(value(note, 'staff') ?? '1')).toBe(staff);
        expect(value(note, 'voice') ?? '1').toBe(voice);
      }
      expect(new Set(notes.map(({ offset }) => offset)).size).toBe(notes.length);
    });

    it('the same places come from a score that is marked already', () => {
      expect(notesOf(annotate(output).report)).toEqual(notes);
      expect(clear(output).output).toBe(text);
    });

    it('a digit is ours where we wrote it, and given where the file prints it', () => {
      const written = output.match(/<\?handline digit/g)?.length ?? 0;
      expect(digitsInPrint(report)).toBeLessThanOrEqual(written);
      for (const { offset, digit } of notes) {
        const note = text.slice(offset, text.indexOf('</note>', offset));
        if (digit === 'ours') expect(note).not.toMatch(/<fingering[^>]*>\s*[1-5]\s*</);
      }
      for (const { notes: all, fingered, kept, slices } of report.lines) {
        const own = slices.flatMap((slice) => slice.notes);
        expect(own.length).toBe(all);
        expect(own.filter(({ digit }) => digit === 'ours').length).toBe(fingered);
        expect(own.filter(({ digit }) => digit === 'given').length).toBe(kept);
      }
    });

    it('slices tell their place: index, measure, exact beat, grace order; and the hand its arm', () => {
      const read = readLines(text).lines;
      for (const { part, hand, slices } of report.lines) {
        const { line } = read.find((other) => other.partId === part && other.line.hand === hand)!;
        expect(slices.map(({ index }) => index)).toEqual(line.slices.map(({ index }) => index));
        let graces = 0;
        for (const slice of slices) {
          const { num, den } = slice.exactBeat;
          // An upbeat is counted from its barline in `beat` alone.
          const into = (slice.beat - 1) * quartersOfBeat(text, slice.notes[0]!.offset);
          if (slice.measure !== '0') expect(num / den - 1).toBeCloseTo(into, 9);
          expect(Number.isInteger(num) && Number.isInteger(den) && den > 0).toBe(true);
          expect(slice.measureIndex).toBe(line.slices[slice.index]!.measure);
          graces = line.slices[slice.index]!.grace ? graces + 1 : 0;
          expect(slice.grace).toBe(graces === 0 ? undefined : graces - 1);
          for (const { key, finger } of slice.notes)
            expect(finger).toBe(slice.fingers[slice.keys.indexOf(key)]);
          expect(Math.abs(slice.roll)).toBeLessThanOrEqual(1);
          for (const own of [slice.arm, slice.contour]) expect(Number.isFinite(own)).toBe(true);
        }
      }
    });

    it('the compact form holds the same fingers, depths and cues, much shorter', () => {
      const compact = compactReport(report);
      expect(
        compact.lines.map(({ slices }) =>
          slices.map(([, , keys, fingers, depth, cue]) => [keys, fingers, depth, cue]),
        ),
      ).toEqual(
        report.lines.map(({ slices }) =>
          slices.map(({ keys, fingers, depth, cue }) => [keys, fingers, depth, cue]),
        ),
      );
      const share = JSON.stringify(compact).length / JSON.stringify(report).length;
      console.log(
        `${notes.length} notes: ${(JSON.stringify(report).length / notes.length).toFixed(0)} characters a note, compact ${(100 * share).toFixed(0)} %`,
      );
      expect(share).toBeLessThan(0.2);
    });
  },
);

it('the next best finger is asked for, and changes nothing else', () => {
  const text = readFileSync(`${FIXTURES}demo/kelp-street-tunes.musicxml`, 'utf8');
  const plain = annotate(text);
  const asked = annotate(text, { nextBest: true });
  expect(asked.output).toBe(plain.output);
  let found = 0;
  const without = asked.report.lines.map((line) => ({
    ...line,
    slices: line.slices.map(({ nextBest, ...slice }) => {
      expect(nextBest).toHaveLength(slice.keys.length);
      nextBest!.forEach((next, nth) => {
        if (!next) return;
        found += 1;
        expect(next.finger).not.toBe(slice.fingers[nth]);
        expect(next.cost).toBeGreaterThanOrEqual(0);
      });
      return slice;
    }),
  }));
  expect({ ...asked.report, lines: without }).toEqual(plain.report);
  // Beside a repeat as well, whose other side is pinned in the search.
  expect(asked.report.lines[0]!.slices[0]!.nextBest![0]).not.toBeNull();
  expect(found).toBeGreaterThan(500);
});

it('a report without slices says the rest alike, of chosen measures too', () => {
  const text = readFileSync(`${FIXTURES}demo/kelp-street-tunes.musicxml`, 'utf8');
  for (const options of [{}, { measures: { from: '3', to: '9' } }]) {
    const full = annotate(text, options);
    const brief = annotate(text, { ...options, slices: false });
    expect(brief.output).toBe(full.output);
    expect(full.report.lines.every(({ slices }) => slices.length > 0)).toBe(true);
    const lines = full.report.lines.map((line) => ({ ...line, slices: [] }));
    expect(brief.report).toEqual({ ...full.report, lines });
  }
});
