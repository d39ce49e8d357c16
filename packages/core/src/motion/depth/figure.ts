import { haveSameKeys, type Slice } from '../../hands/line.js';

/**
 * True where the move into a slice belongs to a figure that turns to and fro, as a trill, a tremolo or an Alberti bass:
 * one of the two notes comes three times, another note before each.
 */
export function isToAndFro(slices: readonly Slice[], at: number): boolean {
  return comesThrice(slices, at) || comesThrice(slices, at - 1);
}

function comesThrice(slices: readonly Slice[], at: number): boolean {
  for (let first = at - 4; first <= at; first += 2) {
    if (alternates(slices, first) && alternates(slices, first + 2)) return true;
  }
  return false;
}

/** Whether the same keys are struck two notes later, and others between. */
function alternates(slices: readonly Slice[], at: number): boolean {
  const [one, between, other] = [slices[at], slices[at + 1], slices[at + 2]];
  if (one === undefined || between === undefined || other === undefined) return false;
  return haveSameKeys(one, other) && !haveSameKeys(one, between);
}
