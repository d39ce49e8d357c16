import type { Language } from '../../options/options.js';
import { LEVELS } from '../findings/thresholds.js';
import { KINDS, type Kind } from '../measure/kinds.js';
import type { ComparisonReport, PassageReport, Review, ReviewFinding } from '../report-types.js';
import { fill, millimetres, REVIEW_WORDS } from '../words/wording.js';
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
  const sections: Section[] = [headOf(review, words)];
  if (review.digits > 0) {
    sections.push(...findingSections(review, words, shown));
    const table = passageTable(review, words, shown);
    if (table) sections.push(table);
  }
  sections.push(...review.comparisons.map((own) => comparisonSection(own, words)));
  sections.push(...review.passages.flatMap((own) => wholeFingerings(own, words)));
  return { title, sections, foot: [review.advice, review.caution] };
}

function headOf({ digits, notes, mm, passages }: Review, words: ReviewWords): Section {
  if (digits === 0) return { lines: [words.noDigits] };
  const judged = passages.filter((own) => own.digits > 0);
  const lines = [
    fill(words.head, {
      digits,
      notes,
      passages: judged.length,
      printed: millimetres(mm.printed),
      least: millimetres(mm.least),
    }),
  ];
  return { lines: digits < notes ? [...lines, fill(words.inferred, { count: notes - digits })] : lines };
}

/** Gravest first, of equal ones the one that saves most. */
export function gravestFirst(a: ReviewFinding, b: ReviewFinding): number {
  return LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) || b.mm - a.mm;
}

function findingSections({ findings, levels }: Review, words: ReviewWords, shown: Shown): readonly Section[] {
  if (findings.length === 0) return [{ lines: [words.noFindings] }];
  const first = findings.toSorted(gravestFirst).slice(0, shown.findings);
  const sections: Section[] = [];
  for (const level of LEVELS) {
    const own = first.filter((finding) => finding.level === level);
    if (levels[level] === 0) continue;
    const left = levels[level] - own.length;
    sections.push({
      heading: `${words.levels[level]} (${levels[level]})`,
      items: own.map((finding) => findingItem(finding, words)),
      lines: left > 0 ? [fill(words.more, { count: left })] : [],
    });
  }
  return sections;
}

/** Begins with a capital letter. */
export function sentence(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

function findingItem(finding: ReviewFinding, words: ReviewWords) {
  const { number, measure, beat, hand, name, level, cause, text, remedy } = finding;
  const place = fill(words.place, { number, measure, beat, hand: words.hands[hand], key: name });
  const lines = [`${sentence(text)}.`];
  if (remedy) {
    const isPossible = cause === 'unholdable' || cause === 'held-key-lost' || cause === 'other-hand';
    const easier = isPossible ? words.possible : level === 'remark' ? words.or : words.easier;
    lines.push(`${fill(easier, { remedy: remedy.text, mm: millimetres(remedy.saved) })}.`);
  }
  return { head: place, lines };
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
  return fill(from.measure === to.measure ? words.measure : words.measures, {
    hand: words.hands[hand],
    from: from.measure,
    to: to.measure,
  });
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
      row(words.fingerings.printed, own.first),
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
        head: `${words.fingerings[own.kind]}: ${sizeOf(own)}`,
        lines: [own.text],
      })),
    },
  ];
}
