import type { Layer } from '../options/options.js';

/** Every cue there is, with the layer that it belongs to, in the order in which parts of one text stand. */
export const CUE_LAYERS = {
  'thumb-passes': 'crossing',
  'over-thumb': 'crossing',
  'hand-over': 'crossing',
  'hand-under': 'crossing',
  in: 'depth',
  'far-in': 'depth',
  out: 'depth',
  'far-out': 'depth',
  lean: 'depth',
  'arm-right': 'carry',
  'arm-left': 'carry',
  'wrist-rises': 'contour',
  'wrist-level': 'contour',
  'turn-thumb': 'roll',
  'turn-fifth': 'roll',
  'turn-afresh': 'roll',
} as const satisfies Readonly<Record<string, Layer>>;

/** Name of a cue, the same in every language: the keys of a user's own wording. */
export type CueKey = keyof typeof CUE_LAYERS;

export const CUE_KEYS = Object.keys(CUE_LAYERS) as readonly CueKey[];

/** Layers that are on where nothing else is asked. */
export const DEFAULT_LAYERS: readonly Layer[] = ['depth', 'crossing'];

/** What one language says. */
export interface Words {
  /** The text printed in the score. */
  readonly cues: Readonly<Record<CueKey, string>>;
  /** What the text asks for, for the legend. */
  readonly meanings: Readonly<Record<CueKey, string>>;
  /** The usual caution about pain and injury. */
  readonly caution: string;
}
