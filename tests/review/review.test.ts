import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import {
  annotate,
  clear,
  type Language,
  markReview,
  planDigits,
  type Review,
  readLines,
  review,
  reviewMarkdown,
  reviewsTable,
  reviewText,
} from '#core/index.js';
import { editions } from '../scores.js';
import { reviewOf, scoreOf } from './score.js';

const SCHEMA = JSON.parse(
  readFileSync(fileURLToPath(new URL('../../packages/core/schema/review-1.json', import.meta.url)), 'utf8'),
);
const validate = new Ajv2020({ allErrors: true }).compile(SCHEMA);
const LANGUAGES: readonly Language[] = ['en', 'de', 'fr', 'es', 'it'];

/** Every text of a review, in one string. */
const textsOf = (found: Review): string =>
  JSON.stringify([found, reviewText(found, { title: 'x', all: true })]);

describe.each(editions(2, 0.4))('an edition: %s', (path) => {
  const bytes = readFileSync(path);
  const text = bytes.toString('utf8');
  const found = review(bytes, { alternatives: 3 });

  it('fits the schema, as it is and on the command line', () => {
    const json = JSON.parse(JSON.stringify({ files: [{ input: path, review: found }] }));
    expect([validate(json), validate.errors]).toEqual([true, null]);
  });

  it('names notes of the source, and only what saves movement or makes the digits playable', () => {
    expect(found.digits).toBeGreaterThan(0);
    for (const { note, remedy, cause, level, mm } of found.findings) {
      expect(text.slice(note.start, note.start + 5)).toBe('<note');
      if (cause === 'unholdable' || cause === 'held-key-lost' || cause === 'unlike') continue;
      expect(remedy!.saved).toBeGreaterThanOrEqual(found.thresholds.remark);
      expect(mm).toBe(remedy!.saved);
      if (level !== 'remark')
        expect(remedy!.saved).toBeGreaterThanOrEqual(found.thresholds.look * Number(cause !== 'other-hand'));
    }
  });

  it('speaks of the chosen measures only, and of them as of the whole', () => {
    const last = found.findings.find((each, nth) => found.findings[nth + 1]?.measure !== each.measure);
    if (!last) return expect(found.findings).toEqual([]);
    const { measure } = last;
    const own = review(bytes, { measures: { from: measure, to: measure } });
    const starts = ({ findings }: Review) =>
      findings.filter((each) => each.measure === measure).map(({ note }) => note.start);
    expect(own.findings.map((each) => each.measure)).toEqual(own.findings.map(() => measure));
    expect(own.findings.map(({ note }) => note.start)).toEqual(starts(found));
  });

  it('divides each hand into passages without gap or overlap, in order', () => {
    for (const { line, partId } of readLines(bytes).lines) {
      const own = found.passages.filter(({ part, hand }) => part === partId && hand === line.hand);
      expect(own.flatMap(({ fingering }) => fingering.map(({ keys }) => keys))).toEqual(
        line.slices.map(({ struck }) => struck.map(({ key }) => key)),
      );
    }
  });

  it('keeps the printed digits, and says which are inferred', () => {
    for (const { line, fingers, partId } of planDigits(bytes).lines) {
      const onsets = found.passages
        .filter(({ part, hand }) => part === partId && hand === line.hand)
        .flatMap(({ fingering }) => fingering);
      onsets.forEach(({ printed, fingers: own }, at) => {
        own.forEach((finger, nth) => {
          const digit = fingers.slices[at]!.struck[nth];
          expect(printed[nth]).toBe(digit !== null && finger !== null);
          if (digit !== null && finger !== null) expect(finger).toBe(digit);
        });
      });
    }
  });

  it('is the same every time, and on what annotate adds nothing to', () => {
    expect(JSON.stringify(review(bytes, { alternatives: 3 }))).toBe(JSON.stringify(found));
  });

  it('is marked in the score and cleared out of it, byte for byte', () => {
    for (const form of ['numbers', 'words'] as const) {
      const marked = markReview(new Uint8Array(bytes), found, { form });
      expect(Buffer.compare(Buffer.from(clear(marked).output), bytes)).toBe(0);
      const again = review(marked);
      expect(again.findings.map(({ cause, mm }) => [cause, mm])).toEqual(
        found.findings.map(({ cause, mm }) => [cause, mm]),
      );
      const heads = marked.toString() === '' ? '' : Buffer.from(marked).toString('utf8');
      for (const { number } of found.findings) expect(heads).toContain(`[${number}]`);
    }
  });

  it('lists whole fingerings that all differ, the printed one first', () => {
    expect(found.passages.some(({ alternatives }) => alternatives !== undefined)).toBe(
      found.findings.length > 0,
    );
    for (const { alternatives = [], mm } of found.passages) {
      if (alternatives.length === 0) continue;
      expect(alternatives[0]).toMatchObject({ kind: 'printed', more: 0, differs: [] });
      expect(new Set(alternatives.map(({ fingers }) => JSON.stringify(fingers))).size).toBe(
        alternatives.length,
      );
      expect(alternatives.length).toBeLessThanOrEqual(3);
      for (const { mm: own, more } of alternatives) expect(own - more).toBeCloseTo(mm.printed, 3);
    }
  });
});

describe('languages', () => {
  const score = readFileSync(editions(1, 0.65)[0]!);

  it.each(LANGUAGES)('%s: no placeholder is left, every text is of its own', (language) => {
    const own = review(score, { language, alternatives: 2 });
    expect(textsOf(own)).not.toMatch(/\{\w+\}|undefined|NaN/);
    expect(reviewMarkdown(own, { title: 'x' })).toContain(own.caution.slice(0, 20));
    const english = review(score, { language: 'en', alternatives: 2 });
    expect(own.findings.map(({ cause, mm }) => [cause, mm])).toEqual(
      english.findings.map(({ cause, mm }) => [cause, mm]),
    );
    if (language !== 'en')
      for (const [nth, { text }] of own.findings.entries())
        expect(text).not.toBe(english.findings[nth]!.text);
  });
});

describe('scores of other kinds', () => {
  it('without digits there is nothing to review', () => {
    const found = reviewOf('right', 'C4 D4 E4 F4 G4');
    expect(found).toMatchObject({ digits: 0, findings: [], mm: { more: 0 } });
    expect(reviewText(found, { title: 'x' })).toContain('nothing to review');
  });

  it('an empty score, chords beyond reach, ties and grace notes are reviewed', () => {
    expect(review(scoreOf({})).passages).toEqual([]);
    expect(reviewOf('right', 'C4=1+C6=5 D4=1+D6=5').findings.length).toBeGreaterThanOrEqual(0);
  });

  it('the digits of mark itself can be reviewed, and stay when the review is marked', () => {
    const { output } = annotate(scoreOf({ right: 'C4 D4 E4 F4 G4 A4 B4 C5' }));
    const found = review(output);
    expect(found.digits).toBe(8);
    const marked = markReview(output, found);
    expect(review(marked).digits).toBe(8);
  });

  it('a review of another score is refused', () => {
    const found = reviewOf('right', 'C4=1 D4=2 E4=2 F4=3 G4=4');
    expect(() => markReview(scoreOf({ left: 'C3=1' }), found)).toThrow(/review: it speaks of other notes/);
  });

  it('several scores stand in one table, worst first', () => {
    const [bad, good] = ['C4=2 D4=3 E4=2 F4=3', 'C4=1 D4=2 E4=3 F4=4'].map((onsets) =>
      reviewOf('right', onsets),
    );
    const table = reviewsTable(
      [
        { title: 'good', review: good! },
        { title: 'bad', review: bad! },
      ],
      'en',
    );
    expect(table.indexOf('bad')).toBeLessThan(table.indexOf('good'));
    expect(reviewsTable([{ title: 'a|b', review: good! }], 'de', 'markdown')).toContain('a\\|b');
  });

  it('thresholds decide what is spoken of', () => {
    const onsets = 'C4=1 D4=2 E4=2 F4=3 G4=4';
    expect(reviewOf('right', onsets, {}, { thresholds: { remark: 500 } }).findings).toEqual([]);
    expect(reviewOf('right', onsets, {}, { thresholds: { look: 200, change: 500 } }).levels.remark).toBe(1);
  });
});

it('a held key that is lost for little is a remark of its own: both work with the pedal', () => {
  const onsets = 'C4=1:8 / r E4=2 G4=4 E4=1 G4=4 E4=2 G4=4 r';
  const levels = [6, 60].map((digit) => {
    const [found] = reviewOf('right', onsets, {}, { thresholds: { digit } }).findings;
    expect(found!.cause).toBe('held-key-lost');
    expect(/Both work where the pedal holds the note$/.test(found!.text)).toBe(found!.level === 'remark');
    return found!.level;
  });
  expect(levels).toEqual(['worth a look', 'remark']);
});
