import type { Part } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import { type Flow, playedFlow } from './joins.js';
import type { Line } from './line.js';
import { type Ornaments, ornamentsOf } from './ornaments.js';

/** What a line's slices do not show, and its fingering depends on. */
export interface PlayingContext {
  /** Where playing order departs from print; absent where it does not. */
  readonly flow?: Flow;
  /** Ornaments of the line; absent where there are none. */
  readonly ornaments?: Ornaments;
}

export function playingContext(line: Line, part: Part, clock: Clock): PlayingContext {
  const [flow, ornaments] = [playedFlow(line, part, clock), ornamentsOf(line, part)];
  return { ...(flow && { flow }), ...(ornaments && { ornaments }) };
}
