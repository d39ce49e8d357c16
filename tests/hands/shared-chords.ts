import { annotate, clear } from '@handline/core';
import { expect } from 'vitest';
import type { AnnotateOptions } from '#core/options/options.js';
import { attributes, backup, note, onePart, rest } from '../musicxml/read-source.js';

export const WHOLE = 16;
export const digit = (finger: number | string) => `<technical><fingering>${finger}</fingering></technical>`;

interface Chord {
  readonly staff?: 1 | 2;
  readonly duration?: number;
  /** Elements after `<duration>` and within `<notations>`, by pitch. */
  readonly ties?: Readonly<Record<string, string>>;
  readonly notations?: Readonly<Record<string, string>>;
}

export function chord(pitches: readonly string[], sketch: Chord = {}): string {
  const { staff = 1, duration = WHOLE, ties = {}, notations = {} } = sketch;
  return pitches
    .map((pitch, nth) =>
      note(pitch, duration, {
        staff,
        voice: staff === 1 ? '1' : '5',
        lead: nth > 0 ? '<chord/>' : '',
        ties: ties[pitch] ?? '',
        notations: notations[pitch] ?? '',
      }),
    )
    .join('');
}

export const low = (pitches: readonly string[], duration = WHOLE) => chord(pitches, { staff: 2, duration });
export const silent = (duration = WHOLE) => rest(duration, '5', 2);
/** Measures of right and left hand. */
export const grand = (...measures: readonly (readonly [string, string])[]) =>
  onePart(
    measures.map(([right, left], at) => `${at === 0 ? attributes() : ''}${right}${backup(WHOLE)}${left}`),
  );

/** What each hand plays, as `keys=fingers`, the hand words in print and what the report tells. */
export function shared(score: string, options: AnnotateOptions = {}) {
  const { output, report } = annotate(score, { span: '8th', layers: [], shareHands: true, ...options });
  expect(clear(output).output).toBe(score);
  const plays = Object.fromEntries(
    report.lines.map(({ hand, slices }) => [
      hand,
      slices.map(({ keys, fingers }) => `${keys.join('+')}=${fingers.join('+')}`).join(' '),
    ]),
  );
  const words = [
    ...output.matchAll(
      /<direction placement="(\w+)">(?:(?!<\/direction>).)*?<words[^>]*>([^<]*\S[^<]*)<\/words>/gs,
    ),
  ].map(([, placement, text]) => `${text} ${placement}`);
  const told = report.lines.map(({ shared = [] }) => shared.map(({ message }) => message));
  return { output, report, plays, words, told };
}

export const TENTH = ['C4', 'G4', 'E5'];
