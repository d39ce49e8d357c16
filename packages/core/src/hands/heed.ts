import type { Part } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import { type Ornaments, ornamentsOf } from './auxiliaries.js';
import { type Flow, playedFlow } from './flow.js';
import type { Line } from './line.js';

/** What a fingering heeds beside the line itself. */
export interface Heed {
  /** Where playing order departs from print; absent where it does not. */
  readonly flow?: Flow;
  /** Ornaments of the line; absent where there are none. */
  readonly ornaments?: Ornaments;
}

export function heedOf(line: Line, part: Part, clock: Clock): Heed {
  const [flow, ornaments] = [playedFlow(line, part, clock), ornamentsOf(line, part)];
  return { ...(flow && { flow }), ...(ornaments && { ornaments }) };
}
