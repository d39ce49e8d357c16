import type { SliceView } from './view.js';

/** Seconds of rest that end a run, and the surroundings of a slice. */
export const BREAK = 0.5;

const OCTAVE = 12;

/** Where a slice stands in a run, that is among slices whose highest keys move in one direction. */
export interface RunPlace {
  /**
   * Semitones from where the run began, up positive, less whole octaves (1 ... 12 recur), since a fingering recurs from
   * one octave to the next; 0 where no run leads here.
   */
  readonly since: number;
  /** The same to where the run ends. */
  readonly until: number;
}

export function runPlaces(views: readonly SliceView[]): readonly RunPlace[] {
  const directions: number[] = [];
  const starts: number[] = [];
  for (let at = 0; at < views.length; at++) {
    const direction = directionInto(views[at - 1], views[at]!);
    starts.push(direction === 0 ? at : direction === directions[at - 1] ? starts[at - 1]! : at - 1);
    directions.push(direction);
  }
  const ends = new Array<number>(views.length);
  for (let at = views.length - 1; at >= 0; at--) {
    const onward = directions[at + 1] ?? 0;
    ends[at] = onward === 0 ? at : onward === directions[at + 2] ? ends[at + 1]! : at + 1;
  }
  const places: RunPlace[] = [];
  for (let at = 0; at < views.length; at++) {
    const { high } = views[at]!;
    places.push({
      since: withinOctave(high - views[starts[at]!]!.high),
      until: withinOctave(views[ends[at]!]!.high - high),
    });
  }
  return places;
}

/** Direction of the highest keys into a slice, 0 where no run goes through. */
function directionInto(before: SliceView | undefined, view: SliceView): number {
  if (!before || before.keys.length === 0 || view.keys.length === 0) return 0;
  if (view.cut || view.free > BREAK) return 0;
  return Math.sign(view.high - before.high);
}

function withinOctave(semitones: number): number {
  if (semitones === 0) return 0;
  return Math.sign(semitones) * (((Math.abs(semitones) - 1) % OCTAVE) + 1);
}
