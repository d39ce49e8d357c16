import type { Cue } from '../cues/cues.js';
import type { Fingered } from '../fingering/finger.js';
import type { Neighbour } from '../fingering/other-hand.js';
import { type ReachAdvice, reachAdvice } from '../fingering/reach-advice.js';
import { playingContext } from '../hands/context.js';
import { asPlayed } from '../hands/joins.js';
import { soundEnds } from '../hands/key-downs.js';
import { type Line, otherHand } from '../hands/line.js';
import { type HandCrossings, handCrossings } from '../motion/hand-crossings.js';
import { planMotion } from '../motion/motion.js';
import type { MotionPlan } from '../motion/plan.js';
import type { Score } from '../score/model.js';
import { Clock } from '../score/tempo.js';
import { chosenCues } from './cues/chosen-cues.js';
import { FINGERING_SHARE, type Progress, READING_SHARE } from './progress.js';
import { selectMeasures } from './selection.js';
import type { Settings } from './settings.js';
import type { Share, SharedLines } from './share-hands.js';
import { fingerStretches } from './stretches.js';

/** Everything that was worked out for one hand of one part. */
export interface LineAnalysis extends Fingered {
  readonly line: Line;
  readonly plan: MotionPlan;
  readonly cues: readonly Cue[];
  /** Ways out of the slices that the hand cannot reach. */
  readonly advice: readonly ReachAdvice[];
  /** What it gives to its player's other hand, or takes from it. */
  readonly shares: readonly Share[];
}

/** What is known of the score beside its lines. */
interface Known extends Pick<SharedLines, 'pairs' | 'shares'> {
  /** The measures with which pages begin, where the file says so. */
  readonly pages?: readonly number[];
}

const UNSHARED: Known = { pairs: [], shares: [] };

/**
 * Fingering, motion and cues of every line, one line after the other, so that the caller need not have the motion of all
 * in memory; pure.
 */
export function* analyse(
  score: Score,
  lines: readonly Line[],
  settings: Settings,
  { pairs, shares, pages = [] }: Known = UNSHARED,
  tell: (progress: Progress) => void = () => undefined,
): Generator<LineAnalysis, void> {
  const keepDigits = settings.existing === 'keep';
  const clock = new Clock(score.tempo);
  const ends = new Map<number, readonly number[]>();
  const endsOf = (part: number): readonly number[] => {
    const known = ends.get(part) ?? soundEnds(score.parts[part]!.notes);
    ends.set(part, known);
    return known;
  };
  const neighbour = (line: Line): Neighbour => ({
    line,
    hand: settings.model[line.hand],
    ends: endsOf(line.part),
  });
  let begun = 0;
  const all = lines.reduce((sum, { slices }) => sum + slices.length, 0);
  const fingered = lines.map((line) => {
    const share = READING_SHARE + (FINGERING_SHARE * begun) / Math.max(all, 1);
    tell({ step: 'fingering', part: score.parts[line.part]!.id, hand: line.hand, share });
    begun += line.slices.length;
    const hand = settings.model[line.hand];
    const context = playingContext(line, score.parts[line.part]!, clock);
    const options = {
      by: settings.by,
      keepDigits,
      ...context,
      alternates: settings.alternatives,
      nextBest: settings.nextBest,
    };
    return { ...fingerStretches(line, hand, options, settings.stretches), line, context };
  });
  const crossings: Pair[] = [];
  for (const one of fingered) {
    const { line, fingering, doubts, context } = one;
    const played = asPlayed(line, context.flow);
    const plan = planMotion(played, fingering, settings.model[line.hand]);
    const partner = score.parts[line.part]!.partner?.part ?? line.part;
    const other = fingered.find(({ line: { part, hand } }) => part === partner && hand !== line.hand);
    const over = other && handCrossingsOf(one, other, crossings, clock)[line.hand];
    const chosen = selectMeasures(score.parts[line.part]!.measures, settings);
    const cues = chosenCues(played, plan, settings, over, chosen, pages);
    const advice = doubts
      .filter(({ kind }) => kind === 'reach')
      .map(({ slice }) =>
        reachAdvice(fingering, slice, settings.model[line.hand], neighbour(other?.line ?? idle(line)), clock),
      );
    const own = shares.filter(({ pair }) => pairs[pair]![line.hand] === line);
    yield { ...one, plan, cues, advice, shares: own };
  }
}

/** The other hand where it has nothing to play. */
function idle({ hand, part }: Line): Line {
  return { hand: otherHand(hand), part, slices: [] };
}

type Fingering = Pick<LineAnalysis, 'line' | 'fingering'>;

/** Two hands that may cross, and where they do. */
interface Pair {
  readonly right: Line;
  readonly left: Line;
  readonly crossings: HandCrossings;
}

/** @param known pairs computed already: the two hands mostly need the same one */
function handCrossingsOf(one: Fingering, other: Fingering, known: Pair[], clock: Clock): HandCrossings {
  const [right, left] = one.line.hand === 'right' ? [one, other] : [other, one];
  const found = known.find((pair) => pair.right === right.line && pair.left === left.line);
  if (found) return found.crossings;
  const crossings = handCrossings(
    { line: right.line, fingers: right.fingering },
    { line: left.line, fingers: left.fingering },
    clock,
  );
  known.push({ right: right.line, left: left.line, crossings });
  return crossings;
}
