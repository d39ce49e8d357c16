/** True in the long rounds (`npm run test:long`), which draw more and read every score that is at hand. */
export const LONG = process.env.HANDLINE_LONG === '1';

/** What properties and mutants are drawn from; in the long rounds another one for every commit. */
export const SEED = Number(process.env.HANDLINE_SEED ?? 1);

/**
 * How often a property is drawn: `few` times in `npm test`, `many` times in the long rounds. Test files that import this
 * module run in both; the others only in `npm test`.
 */
export function rounds(few: number, many = 5 * few): { readonly numRuns: number } {
  return { numRuns: LONG ? many : few };
}

/** Draws for most properties of whole scores. */
export const RUNS = rounds(40, 500);
