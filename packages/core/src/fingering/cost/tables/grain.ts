/** Units of the tables, mm equivalents: habits are told apart by half a millimetre, weights per mm more finely. */
const HABIT_GRAIN = 0.5;
const FINE_GRAIN = 0.01;

export function grainOf(term: string): number {
  return term.startsWith('habit') ? HABIT_GRAIN : FINE_GRAIN;
}
