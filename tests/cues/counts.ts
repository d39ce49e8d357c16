import { readFileSync } from 'node:fs';
import { planCues } from '#core/cues/cues.js';
import { readerSteps, tolerance } from '#core/cues/reader.js';
import { buildLines } from '#core/hands/build.js';
import { LEAST_SECONDS, LEAST_SECONDS_TO_TURN } from '#core/motion/depth/forearm.js';
import { readScore } from '#core/musicxml/read/score.js';
import { toNumber } from '#core/numeric/fraction.js';
import { DENSITIES, type Density } from '#core/options/options.js';
import { openSource } from '#core/pipeline/open.js';
import { analyse, type LineAnalysis } from '#core/pipeline/plan.js';
import { settingsOf } from '#core/pipeline/settings.js';
import { followed, isEarly, isFurther } from './follow.js';

/** For rounding. */
export const NEAR = 1e-6;

/** What cues and plans of several scores come to, and where they break a rule. */
export class Sums {
  readonly texts = { every: 0, essential: 0, demanding: 0 };
  /** Moves of three notes or more, and those of them that have dashes. */
  readonly long = { every: 0, essential: 0, demanding: 0 };
  readonly dashes = { every: 0, essential: 0, demanding: 0 };
  readonly depth = { every: 0, essential: 0, demanding: 0 };
  /** Cues in or out that stand before the note that the move serves. */
  readonly early = { every: 0, essential: 0, demanding: 0 };
  readonly further = { every: 0, essential: 0, demanding: 0 };
  beats = 0;
  measures = 0;
  crossings = 0;
  printed = 0;
  reversals = 0;
  seconds = 0;
  fastest = 0;
  /** mm a second at most in a trill, tremolo or Alberti bass of three notes a second or more, and how many there are. */
  shaking = 0;
  figures = 0;
  readonly failures: string[] = [];
}

/** Analyses a score with our fingering in place of the printed one. */
export function readAndCount(file: string, sums: Sums): void {
  const settings = settingsOf({ existing: 'ignore' });
  const { text, root } = openSource(new Uint8Array(readFileSync(file)), settings.limits, file);
  const { score } = readScore(root, text, settings);
  const lines = [...analyse(score, buildLines(score, settings).lines, settings)];
  for (const part of new Set(lines.map(({ line }) => line.part))) {
    for (const { length, beat } of score.parts[part]!.measures) {
      sums.measures++;
      sums.beats += toNumber(length) / toNumber(beat);
    }
  }
  for (const analysis of lines) {
    for (const density of DENSITIES) countCues(file, analysis, density, sums);
    countCrossings(file, analysis, sums);
    countMotion(file, analysis, sums);
    countFigures(analysis, sums);
  }
}

/** The reader follows the cues that are printed. */
function countCues(file: string, { line, plan }: LineAnalysis, density: Density, sums: Sums): void {
  const texts = planCues(line, plan, { density, language: 'en' });
  sums.texts[density] += texts.length;
  const printed = planCues(line, plan, { density, language: 'en', layers: ['depth'] });
  const path = readerSteps(line, plan);
  const cues = printed.map(({ slice, keys }) => ({
    slice,
    direction: keys[0]!.endsWith('out') ? (-1 as const) : (1 as const),
    further: keys[0]!.startsWith('further'),
  }));
  const reader = followed(path, cues);
  const tolerances = line.slices.map(({ seconds }) => tolerance(density, seconds));
  for (let at = 0; at < path.length; at++) {
    const deviation = Math.abs(reader[at]! - path[at]!.planned);
    if (deviation > tolerances[at]!) {
      sums.failures.push(`${file} ${line.hand} ${density} slice ${at}: ${deviation} mm away`);
    }
  }
  const measures = line.slices.map(({ measure }) => measure);
  for (const [nth, { slice, direction, further }] of cues.entries()) {
    if (direction * (reader[slice]! - reader[slice - 1]!) <= 0)
      sums.failures.push(`${file} ${slice}: no move`);
    const [now, next] = [path[slice]!, path[slice + 1]];
    const goes = now.change !== 0 || !next || next.fresh ? now.change : next.change;
    if (goes * direction <= 0) sums.failures.push(`${file} ${slice}: not where the plan goes`);
    if (isEarly({ path, stay: reader[slice - 1]!, slice, direction, tolerances }))
      sums.failures.push(`${file} ${line.hand} ${density} slice ${slice}: told too early`);
    const same = isFurther(path, reader, measures, cues[nth - 1], cues[nth]!);
    if (same !== further)
      sums.failures.push(`${file} ${line.hand} slice ${slice}: the same way, not further`);
    if (further) sums.further[density]++;
  }
  sums.depth[density] += cues.length;
  sums.early[density] += printed.filter(({ slice, end }) => end > slice).length;
  sums.long[density] += printed.filter(({ slice, end }) => end >= slice + 2).length;
  sums.dashes[density] += texts.filter(({ dashes }) => dashes).length;
}

/** The plain rule: the thumb under 2, 3 or 4, or one of these over it, from one key to one key, connected, at most a fifth apart. */
function countCrossings(file: string, { line, plan }: LineAnalysis, sums: Sums): void {
  const printed = planCues(line, plan, { density: 'essential', language: 'en', layers: ['crossing'] });
  const isSingle = (at: number): boolean =>
    [at - 1, at].every((one) => line.slices[one]?.struck.length === 1);
  sums.crossings += plan.slices.filter(({ crossing }, at) => crossing && isSingle(at)).length;
  for (const { slice } of printed) {
    const { crossing } = plan.slices[slice]!;
    if (!crossing) {
      sums.failures.push(`${file} ${slice}: no crossing`);
      continue;
    }
    const [now, before] = [plan.slices[slice]!.fingers, plan.slices[slice - 1]!.fingers];
    const [from, to] = [
      before.find((own) => own.finger === crossing.from),
      now.find((own) => own.finger === crossing.to),
    ];
    const other = crossing.kind === 'thumb-passing' ? crossing.from : crossing.to;
    const thumb = crossing.kind === 'thumb-passing' ? crossing.to : crossing.from;
    const connected = line.slices[slice]!.free < 0.1 && !line.slices[slice]!.phraseStart;
    const holds = line.slices[slice]!.held.length > 0;
    const fine = thumb === 1 && other >= 2 && other <= 4 && from && to && Math.abs(from.key - to.key) <= 7;
    if (!fine || !isSingle(slice) || !(connected || holds))
      sums.failures.push(`${file} ${line.hand} slice ${slice}: ${crossing.kind}`);
    sums.printed++;
  }
}

/** Onsets of a figure at least, behind the two that it begins with. */
const LEAST_FIGURE = 4;
const QUICK_SECONDS = 1 / 3;

/** Every second note comes back at once: mm a second while it does, apart from the way there. */
function countFigures({ line, plan }: LineAnalysis, sums: Sums): void {
  const keys = line.slices.map(({ struck }) => struck.map(({ key }) => key).join());
  const isQuick = (at: number): boolean => {
    const { seconds, free, phraseStart } = line.slices[at]!;
    return seconds <= QUICK_SECONDS + NEAR && free < 0.15 && !phraseStart;
  };
  for (let start = 0; start < keys.length; start++) {
    for (const pedal of [start, start + 1]) {
      let end = start + 1;
      while (end < keys.length && isQuick(end)) {
        const isBack = (end - pedal) % 2 !== 0 || end < pedal || keys[end] === keys[pedal];
        if (!isBack || keys[end] === keys[end - 1]) break;
        end++;
      }
      // Two notes in which the arm may come to where it settles.
      if (end - start < 2 + LEAST_FIGURE) continue;
      const inside = plan.slices.slice(start + 2, end);
      const travel = inside.reduce((sum, { depthChange }) => sum + Math.abs(depthChange), 0);
      const seconds = line.slices.slice(start + 2, end).reduce((sum, slice) => sum + slice.seconds, 0);
      sums.figures++;
      sums.shaking = Math.max(sums.shaking, travel / seconds);
    }
  }
}

function countMotion(file: string, { line, plan }: LineAnalysis, sums: Sums): void {
  let time = 0;
  let turned = Number.NEGATIVE_INFINITY;
  let last = 0;
  for (let at = 1; at < plan.slices.length; at++) {
    const seconds = Math.max(LEAST_SECONDS, line.slices[at]!.seconds);
    const { depthChange } = plan.slices[at]!;
    sums.fastest = Math.max(sums.fastest, Math.abs(depthChange) / seconds);
    if (depthChange * last < 0) {
      if (time - turned < LEAST_SECONDS_TO_TURN - NEAR) sums.failures.push(`${file} ${at}: turns too soon`);
      turned = time;
      sums.reversals++;
    }
    if (depthChange !== 0) last = depthChange;
    time += seconds;
  }
  sums.seconds += time;
}

/** Lines for people. */
export function print(title: string, sums: Sums): void {
  for (const density of DENSITIES) {
    const [texts, depth] = [sums.texts[density], sums.depth[density]];
    console.log(
      `${title}, ${density}: ${texts} texts, ${(texts / sums.beats).toFixed(2)} a beat, ${(texts / sums.measures).toFixed(2)} a measure; ` +
        `dashes behind ${sums.dashes[density]} of ${sums.long[density]} moves of three notes or more; ${depth} in or out, ${(depth / sums.measures).toFixed(2)} a measure, ${sums.further[density]} of them further the same way, ` +
        `${((100 * sums.early[density]) / depth).toFixed(0)} % before the note that the move serves`,
    );
  }
  console.log(
    `${title}: ${sums.printed} of ${sums.crossings} crossings told of when essential; forearm at most ${sums.fastest.toFixed(0)} mm a second, ` +
      `${(sums.reversals / sums.seconds).toFixed(2)} reversals a second, ` +
      `at most ${sums.shaking.toFixed(0)} mm a second in ${sums.figures} stretches of trills, tremolos and Alberti basses`,
  );
}
