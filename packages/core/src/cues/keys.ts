import type { Layer } from '../options/options.js';

/** Every cue with its layer, in the order in which the cues of one text are printed. */
export const CUE_LAYERS = {
  'thumb-passes': 'crossing',
  'over-thumb': 'crossing',
  'hand-over': 'crossing',
  'hand-under': 'crossing',
  in: 'depth',
  'far-in': 'depth',
  'further-in': 'depth',
  out: 'depth',
  'far-out': 'depth',
  'further-out': 'depth',
  lean: 'depth',
  'arm-right': 'carry',
  'arm-left': 'carry',
  'wrist-rises': 'contour',
  'wrist-level': 'contour',
  rotate: 'roll',
  'turn-thumb': 'roll',
  'turn-fifth': 'roll',
  'turn-afresh': 'roll',
} as const satisfies Readonly<Record<string, Layer>>;

/** Name of a cue, the same in every language: the keys of a user's own wording. */
export type CueKey = keyof typeof CUE_LAYERS;

export const CUE_KEYS = Object.keys(CUE_LAYERS) as readonly CueKey[];

/** Layers that are printed by default. */
export const DEFAULT_LAYERS: readonly Layer[] = ['depth', 'crossing'];

/** The texts of one language. */
export interface Words {
  /** The text printed in the score. */
  readonly cues: Readonly<Record<CueKey, string>>;
  /** The fuller text at its first occurrence and after a long gap, where the short one alone would say little. */
  readonly full: Readonly<Partial<Record<CueKey, string>>>;
  /** What the text asks the player to do, for the legend. */
  readonly meanings: Readonly<Record<CueKey, string>>;
  /** The usual caution about pain and injury. */
  readonly caution: string;
}
