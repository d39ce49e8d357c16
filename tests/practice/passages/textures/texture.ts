import type { Draw } from '../making/draw.js';
import type { Drawn, Frame } from '../passage.js';

export interface Texture {
  readonly name: string;
  /** Passages drawn: whole rounds of 24 go through all keys and both hands. */
  readonly count: number;
  /** Share of passages that passed when others judged ours in this texture, %. */
  readonly blind?: number;
  readonly draw: (frame: Frame, draw: Draw) => Drawn;
}
