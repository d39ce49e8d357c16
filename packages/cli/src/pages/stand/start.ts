import type { AnnotateOptions } from '@handline/core';
import type { Score, Settings } from './session.js';

/** What a stand begins with: a score and choices that the command line gave. */
export interface Start {
  readonly score?: { readonly name: string; readonly base64: string };
  readonly marking?: Pick<AnnotateOptions, 'span' | 'layers' | 'density' | 'language'>;
  /** For whom it is: the name that a handout begins with. */
  readonly student?: string;
}

/** The choices, completed as the library does. */
export function settingsOf({ span = 'medium', ...given }: NonNullable<Start['marking']>): Settings {
  const { right = 'medium', left = 'medium' } = typeof span === 'object' ? span : { right: span, left: span };
  return {
    layers: ['depth', 'crossing'],
    density: 'essential',
    language: 'en',
    ...given,
    span: { right: `${right}`, left: `${left}` },
  };
}

export function scoreOf({ score }: Start): Score | undefined {
  return (
    score && { name: score.name, bytes: Uint8Array.from(atob(score.base64), (one) => one.charCodeAt(0)) }
  );
}
