import { KINDS, type Kind, type Movement } from '../measure/kinds.js';

/** The kind of which there is most. */
export function mostly(movement: Movement): Kind {
  let most: Kind = KINDS[0];
  for (const kind of KINDS) if (movement[kind] > movement[most]) most = kind;
  return most;
}
