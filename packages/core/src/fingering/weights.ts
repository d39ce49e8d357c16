import { FEATURES } from './terms/terms.js';

/** Weight of depth discomfort and travel against the other terms. */
export const DEPTH_WEIGHT = 1;

/** mm equivalents by feature. */
export const WEIGHTS = new Float64Array(FEATURES);
// travel by pace, stretch, crossing: hand-set start values.
WEIGHTS.set([0.5, 0.4, 0.3, 0.1, 0.3, 1, 0.3, 1, 0.3, 1, 0.3, 1, 12, 30, 6, 14, 12, 6, 30, 14, 120, 60]);
