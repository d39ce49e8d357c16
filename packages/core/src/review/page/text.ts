import { checkReview, checkReviewText } from '../../options/allowed.js';
import type { Review } from '../report-types.js';
import { ALL, type Document, documentOf, ONE_SCREEN, type Section, sentence } from './document.js';

/** What a text is to say. */
export interface ReviewTextOptions {
  /** Name of the score, for the first line. */
  readonly title: string;
  /** Everything, not only what fills one screen. Default false. */
  readonly all?: boolean;
}

/** Columns of a line of prose. */
const WIDTH = 100;

/** A review for people, as plain text on one screen. */
export function reviewText(review: Review, options: ReviewTextOptions): string {
  checkReview(review);
  checkReviewText(options);
  const { title, all = false } = options;
  const { sections, foot, title: head }: Document = documentOf(review, title, all ? ALL : ONE_SCREEN);
  const blocks = [
    head,
    ...sections.map(sectionText).filter((text) => text !== ''),
    foot.map((line) => wrapped(line, '')).join('\n'),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function sectionText({ heading, lines, items = [], table }: Section): string {
  const own = lines.map((line) => wrapped(line, heading === undefined ? '' : '  '));
  const body = [
    ...items.flatMap((item) => [`  ${item.head}`, ...item.lines.map((line) => wrapped(line, '      '))]),
    ...own,
    ...(table ? columns(table) : []),
  ];
  return [...(heading === undefined ? [] : [sentence(heading)]), ...body].join('\n');
}

/** Rows in columns, the first flush left, the others flush right. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows.map((row) =>
    `  ${row.map((cell, at) => (at === 0 ? cell.padEnd(widths[at]!) : cell.padStart(widths[at]!))).join('  ')}`.trimEnd(),
  );
}

function wrapped(text: string, indent: string): string {
  const width = WIDTH - indent.length;
  // A number stays with its unit, and in French a sign with the word before it.
  return text.replaceAll(new RegExp(`(.{1,${width}})(?: (?!mm|[:;])|$)`, 'gu'), `${indent}$1\n`).trimEnd();
}
