/** Scores drawn for each property. */
export const RUNS = { numRuns: 300 };

/** No test here measures time; this is only long enough for a busy machine. */
export const PATIENT = { timeout: 300_000 };
