import type { XmlElement } from '../xml/tree.js';
import { type Direction, type DirectionOptions, insertLines } from './cue.js';

/**
 * The legend: directions above the upper staff at the very start. No credit, because programs take the first credit
 * for the title, lay others over it or cut them off; above the first line all of them make room.
 *
 * @param first before which the legend stands
 */
export function writeLegend(
  text: string,
  first: XmlElement,
  staves: number,
  legend: string,
  options: DirectionOptions,
): Direction[] {
  const staff = staves > 1 ? '1' : undefined;
  const direction = { kind: 'legend', text: legend, placement: 'above', voice: undefined, staff } as const;
  return insertLines(text, first, direction, options);
}
