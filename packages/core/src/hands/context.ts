import type { Part } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import { type Flow, playedFlow } from './joins.js';
import type { Line } from './line.js';
import { type Ornaments, ornamentsOf } from './ornaments.js';

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
