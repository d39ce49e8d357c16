import { beatText } from '../../messages/beat.js';
import { fill } from '../../messages/fill.js';
import type { Language } from '../../options/options.js';
import { onsetText, rowByMeasure } from '../findings/rows.js';
import { LEVELS } from '../findings/thresholds.js';
import { KINDS, type Kind } from '../measure/kinds.js';
import type { ComparisonReport, PassageReport, Review, ReviewFinding } from '../report-types.js';
import { measureText, passageText } from '../words/places.js';
import { millimetres, REVIEW_WORDS } from '../words/wording.js';
import type { ReviewWords } from '../words/words.js';

/** A review as a page: what `text.ts` and `markdown.ts` set in their own ways. */
export interface Document {
  readonly title: string;
  readonly sections: readonly Section[];
  /** The advice and the caution. */
  readonly foot: readonly string[];
}

export interface Section {
  readonly heading?: string;
  readonly lines: readonly string[];
  /** Items with a few lines under each. */
  readonly items?: readonly { readonly head: string; readonly lines: readonly string[] }[];
  /** Rows, the headings first. */
  readonly table?: readonly (readonly string[])[];
}

/** Findings and passages shown before the rest is only counted, so that a score fills one screen: our choice. */
export interface Shown {
  readonly findings: number;
  readonly passages: number;
}
export const ONE_SCREEN: Shown = { findings: 8, passages: 5 };
export const ALL: Shown = { findings: Number.POSITIVE_INFINITY, passages: Number.POSITIVE_INFINITY };

export function documentOf(review: Review, title: string, shown: Shown): Document {
  const words = REVIEW_WORDS[review.language as Language];
  const sections: Section[] = [headOf(review, words, shown)];
  if (review.digits > 0) {
    sections.push(...findingSections(review, words, shown));
    const table = passageTable(review, words, shown);
    if (table) sections.push(table);
  }
  sections.push(...review.comparisons.map((own) => comparisonSection(own, words)));
  sections.push(...review.passages.flatMap((own) => wholeFingerings(own, words)));
  const digits = shown === ALL ? digitSection(review, words) : undefined;
  if (digits) sections.push(digits);
  return { title, sections, foot: [review.advice, review.caution] };
}

function headOf({ digits, notes, mm, passages }: Review, words: ReviewWords, shown: Shown): Section {
  if (digits === 0) return { lines: [words.noDigits] };
  const judged = passages.filter((own) => own.digits > 0);
  const lines = [
    fill(digits === 1 ? words.headOfOne : words.head, {
      digits,
      notes,
      passages: judged.length,
      printed: millimetres(mm.printed),
      least: millimetres(mm.least),
    }),
  ];
  const count = notes - digits;
  if (count > 0) lines.push(count === 1 ? words.inferredOne : fill(words.inferred, { count }));
  const places = unreached(judged, words);
  if (places.length > 0) {
    const more = places.length - shown.findings;
    const first = places.slice(0, shown.findings).join(', ');
    lines.push(
      fill(words.outOfReach, { places: more > 0 ? `${first} ${fill(words.more, { count: more })}` : first }),
    );
  }
  return { lines };
}

/** Measures in which a hand has no finger for a key, hand by hand: `right hand m. 3`. */
function unreached(passages: readonly PassageReport[], words: ReviewWords): readonly string[] {
  const places = passages.flatMap(({ hand, fingering }) =>
    fingering
      .filter(({ fingers }) => fingers.includes(null))
      .map(({ measure }) => passageText(words, hand, measure)),
  );
  return [...new Set(places)];
}

/** Every digit of the passages that leave notes open, for the inferred ones to be seen. */
function digitSection({ passages, language }: Review, words: ReviewWords): Section | undefined {
  const open = passages.filter(({ digits, notes }) => digits > 0 && digits < notes);
  if (open.length === 0) return undefined;
  return {
    heading: words.allDigits,
    lines: [],
    items: open.map((own) => {
      const row = own.fingering.map(({ fingers, printed }) => onsetText(own.hand, fingers, printed));
      const measures = own.fingering.map(({ measure }) => measure);
      return {
        head: passagePlace(own, words),
        lines: [rowByMeasure(row, measures, language as Language)],
      };
    }),
  };
}

/** Gravest first, of equal ones the one that saves most. */
export function gravestFirst(a: ReviewFinding, b: ReviewFinding): number {
  return LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) || b.mm - a.mm;
}

function findingSections(
  { findings, levels, language }: Review,
  words: ReviewWords,
  shown: Shown,
): readonly Section[] {
  if (findings.length === 0) return [{ lines: [words.noFindings] }];
  const first = findings.toSorted(gravestFirst).slice(0, shown.findings);
  const sections: Section[] = [];
  for (const level of LEVELS) {
    const own = first.filter((finding) => finding.level === level);
    if (levels[level] === 0) continue;
    const left = levels[level] - own.length;
    sections.push({
      heading: `${words.levels[level]} (${levels[level]})`,
      items: own.map((finding) => findingItem(finding, words, language as Language)),
      lines: left > 0 ? [fill(words.more, { count: left })] : [],
    });
  }
  return sections;
}

/** Begins with a capital letter. */
export function sentence(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

function findingItem(finding: ReviewFinding, words: ReviewWords, language: Language) {
  const { number, measure, beat, hand, name } = finding;
  const place = fill(words.place, {
    number,
    where: measureText(words, measure),
    beat: beatText(beat, language),
    hand: words.hands[hand],
    key: name,
  });
  return { head: place, lines: findingLines(finding, language) };
}

/** The cause, and the easier way if there is one, each as a sentence. */
export function findingLines(
  { level, cause, text, remedy }: ReviewFinding,
  language: Language,
): readonly string[] {
  const words = REVIEW_WORDS[language];
  const said = `${sentence(text)}.`;
  if (!remedy) return [said];
  const isPossible = cause === 'unholdable' || cause === 'held-key-lost' || cause === 'other-hand';
  const easier = isPossible ? words.possible : level === 'remark' ? words.or : words.easier;
  return [said, `${fill(easier, { remedy: remedy.text, mm: millimetres(remedy.saved) })}.`];
}

function passageTable({ passages }: Review, words: ReviewWords, shown: Shown): Section | undefined {
  const worst = passages
    .filter(({ mm }) => mm.more >= 0.5)
    .toSorted((a, b) => b.mm.more - a.mm.more)
    .slice(0, shown.passages);
  if (worst.length === 0) return undefined;
  const kinds = KINDS.filter((kind) =>
    worst.some((own) => own.printed[kind] >= 0.5 || own.least[kind] >= 0.5),
  );
  const rows = worst.map((own) => [
    passagePlace(own, words),
    `${millimetres(own.mm.printed)}/${millimetres(own.mm.least)}`,
    ...kinds.map((kind) => `${millimetres(own.printed[kind])}/${millimetres(own.least[kind])}`),
  ]);
  const headings = [words.passage, words.all, ...kinds.map((kind) => words.kinds[kind])];
  return { heading: words.table, lines: [], table: [headings, ...rows] };
}

export function passagePlace(
  { hand, from, to }: Pick<PassageReport, 'hand' | 'from' | 'to'>,
  words: ReviewWords,
): string {
  return passageText(words, hand, from.measure, to.measure);
}

function comparisonSection(own: ComparisonReport, words: ReviewWords): Section {
  const kinds = KINDS.filter((kind) => own.first[kind] >= 0.5 || own.second[kind] >= 0.5);
  const row = (name: string, movement: Readonly<Record<Kind, number>>) => [
    name,
    ...kinds.map((kind) => millimetres(movement[kind])),
  ];
  return {
    lines: [own.text],
    table: [
      ['', ...kinds.map((kind) => words.kinds[kind])],
      row(words.fingerings[own.digits === 0 ? 'movement' : 'printed'], own.first),
      row(words.others, own.second),
    ],
  };
}

function wholeFingerings(passage: PassageReport, words: ReviewWords): readonly Section[] {
  const { alternatives } = passage;
  if (!alternatives) return [];
  const sizeOf = ({ mm, more }: (typeof alternatives)[number]) => {
    const text = Math.round(more) === 0 ? words.wholeSame : more > 0 ? words.wholeMore : words.wholeLess;
    return fill(text, { mm: millimetres(mm), more: millimetres(Math.abs(more)) });
  };
  return [
    {
      heading: fill(words.whole, { place: passagePlace(passage, words) }),
      lines: [],
      items: alternatives.map((own) => ({
        head: fill(words.wholeHead, {
          kind: words.fingerings[own.kind === 'printed' && passage.digits === 0 ? 'movement' : own.kind],
          size: sizeOf(own),
        }),
        lines: [own.text],
      })),
    },
  ];
}
