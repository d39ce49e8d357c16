import { checkReview } from '../../options/allowed.js';
import type { Language } from '../../options/options.js';
import type { Review, ReviewFinding } from '../report-types.js';
import { findingLines, gravestFirst } from './document.js';

/** A finding, and what a review says of it: the cause and the easier way, as whole sentences. */
export interface FindingText {
  /** As `Review.findings` has it. */
  readonly finding: ReviewFinding;
  /** In the language of the review. */
  readonly text: string;
}

/** The findings of a review in words, gravest first, of equal ones the one that saves most. */
export function findingTexts(review: Review): FindingText[] {
  checkReview(review);
  return review.findings
    .toSorted(gravestFirst)
    .map((finding) => ({ finding, text: findingLines(finding, review.language as Language).join(' ') }));
}
