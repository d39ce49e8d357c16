import { checkLanguage, checkReviewed } from '../../options/allowed.js';
import type { Language } from '../../options/options.js';
import { LEVELS } from '../findings/thresholds.js';
import type { Review } from '../report-types.js';
import { millimetres, REVIEW_WORDS } from '../words/wording.js';
import { markdownTable } from './markdown.js';
import { columns } from './text.js';

/** One of several reviewed scores. */
export interface ReviewedScore {
  /** Name of the score. */
  readonly title: string;
  /** What the table tells of its review. */
  readonly review: Pick<Review, 'digits' | 'levels' | 'mm'>;
}

/** Several scores in one table, worst first: most findings of the gravest level, of equal ones most movement beyond the least. */
export function reviewsTable(
  scores: readonly ReviewedScore[],
  language: Language = 'en',
  form: 'text' | 'markdown' = 'text',
): string {
  checkReviewed(scores);
  checkLanguage(language);
  const words = REVIEW_WORDS[language];
  const headings = [
    words.score,
    words.digits,
    ...LEVELS.map((level) => words.levels[level]),
    words.moreMovement,
  ];
  const rows = scores
    .toSorted(worstFirst)
    .map(({ title, review: { digits, levels, mm } }) => [
      title,
      `${digits}`,
      ...LEVELS.map((level) => `${levels[level]}`),
      `${millimetres(mm.more)} mm`,
    ]);
  if (form === 'markdown') return `## ${words.scores}\n\n${markdownTable([headings, ...rows])}\n`;
  return `${[words.scores, ...columns([headings, ...rows])].join('\n')}\n`;
}

function worstFirst(a: ReviewedScore, b: ReviewedScore): number {
  for (const level of LEVELS) {
    const more = b.review.levels[level] - a.review.levels[level];
    if (more !== 0) return more;
  }
  return b.review.mm.more - a.review.mm.more;
}
