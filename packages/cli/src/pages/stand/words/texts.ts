import type { Density, Layer } from '@handline/core';
import type { Whose } from '../notes.js';

/** The texts of the stand in one language, with `{...}` to fill in. Those with a plain name stand in the page by it. */
export interface StandWords {
  readonly title: string;
  readonly open: string;
  readonly drop: string;
  readonly private: string;
  readonly settings: string;
  readonly language: string;
  readonly spanRight: string;
  readonly spanLeft: string;
  readonly density: string;
  readonly layers: string;
  readonly undo: string;
  readonly redo: string;
  readonly save: string;
  readonly handout: string;
  readonly saveHandout: string;
  readonly student: string;
  readonly notes: string;
  readonly stop: string;
  readonly music: string;
  readonly keys: string;
  readonly note: string;
  readonly choose: string;
  readonly previous: string;
  readonly next: string;
  readonly higher: string;
  readonly lower: string;
  readonly fingers: string;
  readonly giveBack: string;
  readonly why: string;
  readonly keyboard: string;
  readonly compare: string;
  readonly before: string;
  readonly digits: string;
  readonly warnings: string;
  readonly caution: string;
  readonly licences: string;
  readonly engraved: string;
  readonly finger: string;
  readonly noFinger: string;
  readonly whose: Readonly<Record<Whose, string>>;
  readonly movement: string;
  readonly depth: string;
  readonly cue: string;
  readonly noOther: string;
  readonly otherMore: string;
  readonly otherLess: string;
  readonly movementMore: string;
  readonly movementLess: string;
  readonly changed: string;
  readonly nothingChanged: string;
  readonly totals: string;
  readonly change: string;
  readonly opening: string;
  readonly fingering: string;
  readonly engraving: string;
  readonly ready: string;
  readonly opened: string;
  readonly discard: string;
  readonly notOpened: string;
  readonly stopped: string;
  readonly saved: string;
  readonly failed: string;
  readonly layerNames: Readonly<Record<Layer, string>>;
  readonly densities: Readonly<Record<Density, string>>;
  readonly spans: Readonly<Record<'small' | 'medium' | 'large', string>>;
  /** Of an interval, with `{number}`. */
  readonly interval: string;
  /** C to B. */
  readonly letters: readonly string[];
  /** Where B flat has a name of its own. */
  readonly flatB?: string;
}
