import { fill } from '../../messages/fill.js';
import { MESSAGES } from '../../messages/messages.js';
import type { Language } from '../../options/options.js';
import { optionError, type Warning } from '../../score/errors.js';
import type { Part, Score } from '../../score/model.js';
import type { StaffChoice } from './staves.js';

/** Choices of the caller, as in `AnnotateOptions`. */
export interface HandOptions {
  readonly parts?: readonly string[];
  readonly staff?: StaffChoice;
  /** Language of the warnings. Default English. */
  readonly messages?: Language;
  /** Whether printed digits become constraints. Default keep. */
  readonly existing?: 'keep' | 'ignore' | 'replace';
}

/**
 * The parts to mark: those that were asked for, else all keyboard parts, else, where a staff was chosen, the only part.
 * @throws HandlineError OPTION where a part or a staff that was asked for does not exist
 */
export function pianoParts(score: Score, options: HandOptions): { parts: Part[]; warnings: Warning[] } {
  const parts = chosenParts(score, options);
  for (const hand of ['right', 'left'] as const) {
    for (const staff of options.staff?.[hand] ?? []) {
      if (parts.length > 0 && !parts.some((part) => staff <= part.staves)) {
        throw optionError('staff', `there is no staff ${staff} (${hand} hand) in the parts to mark`);
      }
    }
  }
  if (parts.length > 0) return { parts, warnings: [] };
  const ids = score.parts.map((part) => part.id).join(', ');
  const words = MESSAGES[options.messages ?? 'en'];
  const message = score.parts.length === 0 ? words.noParts : fill(words.noPiano, { ids });
  return { parts, warnings: [{ code: 'NO_PIANO', message, place: {} }] };
}

function chosenParts(score: Score, options: HandOptions): Part[] {
  if (options.parts !== undefined) {
    return options.parts.map((id) => {
      const part = score.parts.find((candidate) => candidate.id === id);
      if (part !== undefined) return part;
      const allowed = score.parts.map((candidate) => candidate.id);
      throw optionError(
        'parts',
        `there is no part "${id}"; the score has ${allowed.join(', ') || 'none'}`,
        {},
        { given: id, allowed },
      );
    });
  }
  const keyboards = score.parts.filter((part) => part.keyboard);
  if (keyboards.length === 0 && options.staff !== undefined && score.parts.length === 1)
    return [...score.parts];
  return keyboards;
}
