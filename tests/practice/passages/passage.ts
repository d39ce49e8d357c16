import type { FingerOptions, Hand, Line } from '#core/index.js';
import type { Breach, Played } from './played.js';

export type Span = 'small' | 'medium' | 'large';

/** One passage for one hand, and what a teacher asks of its fingering. */
export interface Passage {
  readonly texture: string;
  /** Texture and number: the passage is drawn from this alone. */
  readonly name: string;
  /** What it is, in the trade's words. */
  readonly what: string;
  readonly span: Span;
  /** Quarter notes a minute. */
  readonly tempo: number;
  readonly line: Line;
  readonly heed: FingerOptions;
  readonly judge: (played: Played) => readonly Breach[];
}

/** A passage as its texture's generator gives it. */
export type Drawn = Omit<Passage, 'texture' | 'name' | 'heed'> & { readonly heed?: FingerOptions };

/** What the number of a passage settles, so that every texture goes through all keys and both hands. */
export interface Frame {
  /** Pitch class of the tonic. */
  readonly tonic: number;
  readonly hand: Hand;
  /** Counts the rounds through all keys and both hands. */
  readonly round: number;
}

export function frameOf(nth: number): Frame {
  return {
    tonic: (nth * 7) % 12,
    hand: Math.floor(nth / 12) % 2 === 0 ? 'right' : 'left',
    round: Math.floor(nth / 24),
  };
}
