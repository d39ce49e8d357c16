import type { ChordKind } from './theory/chords.js';
import type { Ladder } from './theory/keys.js';
import type { ScaleKind } from './theory/scales.js';

/** A scale or chord on a keynote. */
export interface Subject {
  readonly ladder: Ladder;
  readonly kind: ScaleKind | { readonly chord: ChordKind };
}
