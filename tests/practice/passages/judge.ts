import type { FingerOptions, Line, LineFingering } from '#core/index.js';
import type { Passage, Span } from './passage.js';
import { type Breach, type Played, playedOf } from './played.js';

/** Any way to finger a line: the library's, one with other weights, an editor's. */
export type Fingerer = (line: Line, span: Span, heed: FingerOptions) => Pick<LineFingering, 'slices'>;

export interface Verdict {
  readonly passage: Passage;
  readonly played: Played;
  /** Empty where the passage passes. */
  readonly breaches: readonly Breach[];
}

export function judgeAll(passages: readonly Passage[], finger: Fingerer): Verdict[] {
  return passages.map((passage) => {
    const { line, span, heed, judge } = passage;
    const played = playedOf(line, finger(line, span, heed), span);
    return { passage, played, breaches: judge(played) };
  });
}
