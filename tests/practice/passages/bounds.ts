/**
 * What our digits keep today, and what they are to keep. A change may raise `LEAST_...` and lower `most`, never the other
 * way; a bound that has reached its aim stays there.
 */

/** Least share of passages that pass, %, by texture. */
export const LEAST_PASSING: Readonly<Record<string, number>> = {
  'recurring bars': 83.3,
  triads: 100,
  'repeated chords': 100,
  'fast repeated notes': 100,
  cadences: 100,
  'held notes': 90,
  'seventh chords': 100,
  'chromatic runs': 94,
  'broken chords': 86.1,
  octaves: 100,
  'small and large hands': 90.6,
  'Alberti basses': 95,
  arpeggios: 94.7,
  leaps: 95.8,
  scales: 100,
  tenths: 97.2,
  'rolled chords': 100,
  ornaments: 98,
  'grace notes': 98,
  'thirds and sixths': 97,
  'five-finger patterns': 100,
  trills: 100,
  fragments: 96,
  'waltz basses': 100,
};

/** Aims for the share of passages that pass, %: of every texture, and of all. */
export const TEXTURE_AIM = 75;
export const OVERALL_AIM = 90;
export const LEAST_OVERALL = 96.9;

/** Least share of chords alone with 1 and 5 outside, %. */
export const LEAST_CHORDS = 97.6;
export const CHORDS_AIM = 95;

/** Breaches of a rule of practice per 1,000 occasions: the most there may be, and the aim. */
export const MOST_BREACHES: Readonly<Record<string, { readonly most: number; readonly aim: number }>> = {
  'R1 no finger twice in a row on a key repeated faster than 7 a second': { most: 0, aim: 0 },
  'R2 an octave or a ninth as a chord has 1 and 5 or 4 outside': { most: 0, aim: 0 },
  'R2 a white octave of a small or medium hand has 1 and 5': { most: 0, aim: 0 },
  'R3 the thumb on two keys only for neighbours at most a tone apart that no free finger reaches': {
    most: 0,
    aim: 0,
  },
  'R4 no crossing by or over 5, no long finger over another in a connected line': { most: 0, aim: 0 },
  'R5 a long trill uses 1 2, 1 3 or 2 3, with reason 2 4 or 3 5': { most: 0, aim: 0 },
  'R6 digits of equal bars are equal': { most: 1.3, aim: 20 },
  'R6 the octaves of a run are equal': { most: 11.4, aim: 20 },
  'R7 no slide from white to white faster than 4 notes a second': { most: 0, aim: 0 },
  'R8 triads, sevenths and their inversions have 1 and 5 outside and no thumb on two keys': {
    most: 166.8,
    aim: 50,
  },
  'R8 they are held as chords are': { most: 0, aim: 50 },
  'R9 five-finger patterns on white keys are 1 2 3 4 5': { most: 0, aim: 0 },
};

/** Runs of three octaves, of 144, that are not fingered as those of two: the most there may be, and the aim. */
export const MOST_UNLIKE_RUNS = 15;
export const UNLIKE_RUNS_AIM = 7;

/** The same by movement alone; what is left out is never broken. */
export const MOST_BREACHES_BY_MOVEMENT: Readonly<Record<string, number>> = {
  'R2 a white octave of a small or medium hand has 1 and 5': 64.8,
  'R4 no crossing by or over 5, no long finger over another in a connected line': 0.04,
  'R6 digits of equal bars are equal': 0.55,
  'R6 the octaves of a run are equal': 0,
  'R7 no slide from white to white faster than 4 notes a second': 0.06,
  'R8 triads, sevenths and their inversions have 1 and 5 outside and no thumb on two keys': 51.5,
  'R8 they are held as chords are': 0,
};
/** Least share of passages that pass by movement alone, %. */
export const LEAST_OVERALL_BY_MOVEMENT = 95.3;
