import type { Hand, Part } from '../../score/model.js';

/** Staff numbers for each hand, as in `AnnotateOptions.staff`. */
export interface StaffChoice {
  readonly right?: readonly number[];
  readonly left?: readonly number[];
}

/** Who plays a staff: the hand, and the player where several sit at one part. */
export interface StaffRole {
  readonly hand: Hand;
  readonly player: number;
}

/** Words for a hand, or for an organ, in part names of five languages (common practice). */
const RIGHT_NAME = /\bright\b|\br\.?\s?h\b|rechte|droite|destra|derecha|\bm\.?\s?d\b/i;
const LEFT_NAME = /\bleft\b|\bl\.?\s?h\b|linke|gauche|sinistra|izquierda|\bm\.?\s?[sg]\b/i;
const ORGAN_NAME = /\borgan\b|orgel|\borgue\b|[óo]rgano/i;
/** MIDI number of middle C: a staff with neither a G nor an F clef is the right hand's if its notes lie above it on average. */
const MIDDLE_C = 60;

/**
 * Which hand plays which staff, by staff number. Two staves: right and left. One: as the part's name, its partner staff
 * or its clef says. Three: the outer ones right and left, the inner one by clef and range; on an organ the third is for
 * the feet. Four: two players. With a choice only the chosen staves are played.
 */
export function staffRoles(part: Part, choice: StaffChoice | undefined): Map<number, StaffRole> {
  const roles = new Map<number, StaffRole>();
  const give = (staff: number, hand: Hand, player = 0) => roles.set(staff, { hand, player });
  if (choice !== undefined) {
    for (const staff of choice.right ?? []) give(staff, 'right');
    for (const staff of choice.left ?? []) give(staff, 'left');
    return roles;
  }
  if (part.staves === 1) give(1, handOfSingle(part));
  else if (part.staves === 2) {
    give(1, 'right');
    give(2, 'left');
  } else if (part.staves === 3 && ORGAN_NAME.test(part.name)) {
    give(1, 'right');
    give(2, 'left');
  } else if (part.staves === 4) {
    for (let staff = 1; staff <= 4; staff++)
      give(staff, staff % 2 === 1 ? 'right' : 'left', staff > 2 ? 1 : 0);
  } else {
    give(1, 'right');
    for (let staff = 2; staff < part.staves; staff++) give(staff, handByClef(part, staff));
    give(part.staves, 'left');
  }
  return roles;
}

function handOfSingle(part: Part): Hand {
  if (RIGHT_NAME.test(part.name)) return 'right';
  if (LEFT_NAME.test(part.name)) return 'left';
  if (part.partner) return part.partner.lies === 'below' ? 'right' : 'left';
  return handByClef(part, 1);
}

function handByClef(part: Part, staff: number): Hand {
  const sign = part.clefs[staff - 1]?.sign;
  if (sign === 'F') return 'left';
  if (sign === 'G') return 'right';
  let sum = 0;
  let count = 0;
  for (const note of part.notes) {
    if (note.staff !== staff) continue;
    sum += note.key;
    count += 1;
  }
  return sum < MIDDLE_C * count ? 'left' : 'right';
}
