import { type Cue, planCues } from '../../cues/cues.js';
import type { Line } from '../../hands/line.js';
import type { Crossing, MotionPlan } from '../../motion/plan.js';
import type { Selection } from '../selection.js';
import type { Settings } from '../settings.js';

/**
 * The cues of a line in the chosen measures, as whoever reads these alone needs them: the reader begins at the first of
 * them, and has been told of nothing before.
 *
 * @param handCrossings of the whole line, by slice
 * @param pages the measures with which pages begin
 */
export function chosenCues(
  line: Line,
  plan: MotionPlan,
  { layers, density, language, wording }: Settings,
  handCrossings: readonly (Crossing | undefined)[] = [],
  chosen: Selection,
  pages: readonly number[],
): readonly Cue[] {
  const isChosen = ({ measure }: { measure: number }): boolean => chosen(measure);
  const from = line.slices.findIndex(isChosen);
  if (from < 0) return [];
  const to = line.slices.findLastIndex(isChosen) + 1;
  const cues = planCues(
    { ...line, slices: line.slices.slice(from, to) },
    { ...plan, slices: plan.slices.slice(from, to) },
    { layers, density, language, wording, pages, handCrossings: handCrossings.slice(from, to) },
  );
  return from === 0 ? cues : cues.map((cue) => ({ ...cue, slice: cue.slice + from, end: cue.end + from }));
}
