import type { DepthCause } from '../motion/reason.js';
import type { Layer } from '../options/options.js';
import type { Hand } from '../score/model.js';

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

type InAndOut = Readonly<Record<'in' | 'out', string>>;

/** Words for why the forearm moves, with `{mover}`, `{coming}`, `{why}` and `{key}` to fill in. */
export interface ReasonWords {
  readonly thumb: string;
  readonly arm: string;
  readonly own: InAndOut;
  readonly ready: InAndOut;
  readonly evenly: InAndOut;
  readonly causes: Readonly<Record<DepthCause, string>>;
  /** @param step the letter, C = 0 ... B = 6; @param alter semitones, up positive */
  readonly noteName: (step: number, alter: number) => string;
}

/** The texts of one language. */
export interface Words {
  /** The text printed in the score. */
  readonly cues: Readonly<Record<CueKey, string>>;
  /** The fuller text at its first occurrence and after a long gap, where the short one alone would say little. */
  readonly full: Readonly<Partial<Record<CueKey, string>>>;
  /** What the text asks the player to do, for the legend. */
  readonly meanings: Readonly<Record<CueKey, string>>;
  /** What dashes behind a text say, for the legend. */
  readonly dashes: string;
  /** The trade's usual mark for a hand. */
  readonly hands: Readonly<Record<Hand, string>>;
  /** What that mark says, for the legend. */
  readonly takes: Readonly<Record<Hand, string>>;
  readonly reasons: ReasonWords;
  /** The usual caution about pain and injury. */
  readonly caution: string;
}
