/**
 * Standard fingerings of lines that Hanon's scales and arpeggios (`tables.ts`) leave out, all from memory; for checks only.
 * Right-hand keys; where nothing else is said, a left hand's line is the right hand's mirrored about D.
 */

/** Chromatic scale from C, two octaves up: 3 on black keys (Hanon, The Virtuoso Pianist, 1873, No. 40); the others common practice. */
export const CHROMATIC: Readonly<Record<string, string>> = {
  '3 on black keys': '1313123131312313123131312',
  '2 on black keys': '1212123121212312123121212',
  'groups of three and four': '1212312341231212312341234',
};

/** Arpeggios of dominant sevenths, one octave from the root upwards as it recurs; common practice. */
export const SEVENTH_ARPEGGIOS: Readonly<Record<string, readonly [root: number, digits: string]>> = {
  C: [60, '1234'],
  D: [62, '1234'],
  E: [64, '1234'],
  F: [65, '1234'],
  G: [67, '1234'],
  A: [69, '1234'],
  B: [71, '1234'],
  'D flat': [61, '4123'],
  'E flat': [63, '4123'],
  'F sharp': [66, '2341'],
  'A flat': [68, '4123'],
  'B flat': [70, '4123'],
};

/** Thirds on white keys: five fingers, and the scale of C major, one octave as it recurs; lower and upper digit. */
export const FIVE_FINGER_THIRDS = ['13', '24', '35', '24', '13'];
export const SCALE_IN_THIRDS = ['13', '24', '35', '12', '13', '24', '35'];
