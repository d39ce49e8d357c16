/** The unit of the tables, mm equivalents. */
export const GRAIN = 0.05;
