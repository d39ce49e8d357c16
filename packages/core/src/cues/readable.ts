import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { LayerCues } from './layer-cues.js';

/** Cues or crossings of one run lie at most this many slices apart, from memory: an arpeggio over an octave has three between. */
export const FARTHEST_SLICES = 5;
/** Seconds that a player takes to read a text, from memory. */
const READING_SECONDS = 0.6;
/** Of a run that is too quick to read this many are told: there and back. */
const TOLD = 2;
/** Measures after which a quick run is told of again: from memory. */
const AGAIN_MEASURES = 2;

/** Whether the slices of a run follow each other no quicker on average than their texts can be read. */
export function isReadable(line: Line, run: readonly number[]): boolean {
  let seconds = 0;
  for (let at = run[0]! + 1; at <= run.at(-1)!; at++) seconds += line.slices[at]!.seconds;
  return run.length < 2 || seconds / (run.length - 1) >= READING_SECONDS;
}

/** Cues of one layer; of a run that comes quicker than it can be read the first two, and again after some measures. */
export function readableCues(line: Line, cues: LayerCues): LayerCues {
  const readable = cues.map((): LayerCues[number] => undefined);
  for (const run of runsOf(line, cues)) {
    const told = isReadable(line, run) ? run : run.slice(0, TOLD);
    for (const at of told) readable[at] = cues[at];
  }
  return readable;
}

function runsOf(line: Line, cues: LayerCues): readonly (readonly number[])[] {
  const runs: number[][] = [];
  let run: number[] = [];
  for (const [at, key] of cues.entries()) {
    const slice = line.slices[at]!;
    if (isFreshStart(slice)) run = [];
    if (key === undefined) continue;
    const isNear =
      at - (run.at(-1) ?? Number.NEGATIVE_INFINITY) <= FARTHEST_SLICES &&
      slice.measure - line.slices[run[0]!]!.measure <= AGAIN_MEASURES;
    // A rise and its end are told together or not at all.
    if (isNear || (key === 'wrist-level' && run.length > 0)) run.push(at);
    else {
      run = [at];
      runs.push(run);
    }
  }
  return runs;
}
