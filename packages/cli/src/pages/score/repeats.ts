import { tagsOf } from './tags.js';

/** A score without the numbers of its repeats, of which nothing is drawn: verovio writes out as many copies while it reads. */
export function withoutTimes(text: string): string {
  let kept = '';
  let from = 0;
  for (const { start, end } of tagsOf(text, ['repeat'])) {
    kept +=
      text.slice(from, start) + text.slice(start, end).replace(/\s+times\s*=\s*(?:"[^"]*"|'[^']*')/, '');
    from = end;
  }
  return kept + text.slice(from);
}
