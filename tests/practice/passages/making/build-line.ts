import type { Fraction, Hand, Line, Slice, SliceKey } from '#core/index.js';

/** Keys struck together. */
export interface Strike {
  /** Quarter notes from the start; a grace note has the onset of the note that follows. */
  readonly at: number;
  readonly keys: readonly number[];
  /** Quarter notes that the keys stay down; default: until the next strike. */
  readonly length?: number;
  readonly diatonic?: number;
  readonly grace?: boolean;
  readonly rolled?: boolean;
}

export interface LineForm {
  /** Quarter notes a minute. */
  readonly tempo: number;
  /** Quarter notes of a bar. Default 4. */
  readonly bar?: number;
}

/** Ticks of a quarter note: sixteenths, triplets, quintuplets and thirty-seconds are whole. */
const TICKS = 480;
/** Seconds from a grace note to what follows, at most (common practice). */
const GRACE_SECONDS = 0.1;

interface Down {
  readonly key: number;
  readonly since: number;
  readonly note: number;
  readonly end: number;
}

/** A line of one hand as `readLines` gives it; strikes in order of onset, those of the same onset are one slice. */
export function buildLine(hand: Hand, strikes: readonly Strike[], { tempo, bar = 4 }: LineForm): Line {
  const quarter = 60 / tempo;
  const grace = Math.min(GRACE_SECONDS, quarter / 4);
  const groups: Strike[][] = [];
  for (const strike of strikes) {
    const last = groups.at(-1);
    if (last && last[0]!.at === strike.at && !last[0]!.grace && !strike.grace) last.push(strike);
    else groups.push([strike]);
  }
  const onsets = groups.map(([first], nth) => first!.at * quarter - graceNotesFrom(groups, nth) * grace);
  let note = 0;
  let down: Down[] = [];
  const slices = groups.map((group, index): Slice => {
    const onset = onsets[index]!;
    const next = onsets[index + 1] ?? onset + quarter;
    const before = down;
    const struck = group
      .flatMap(({ keys, length, diatonic }) =>
        keys.map((key): SliceKey => {
          const seconds = length === undefined ? next - onset : length * quarter;
          return { key, notes: [note++], seconds, ...(diatonic !== undefined && { diatonic }) };
        }),
      )
      .sort((a, b) => a.key - b.key);
    const kept = before.filter(
      ({ key, end }) => end > onset + 1e-6 && !struck.some((own) => own.key === key),
    );
    const lastEnd = Math.max(...before.map(({ end }) => end), -Infinity);
    down = [
      ...kept,
      ...struck.map(({ key, notes, seconds }) => ({
        key,
        since: index,
        note: notes[0]!,
        end: onset + seconds,
      })),
    ];
    const { at, rolled = false } = group[0]!;
    const free = index === 0 ? 0 : Math.max(0, onset - Math.min(onset, lastEnd));
    return {
      index,
      onset: lowestTerms(Math.round(at * TICKS)),
      measure: Math.floor(at / bar + 1e-9),
      grace: group[0]!.grace === true,
      struck,
      held: kept
        .map(({ key, since, note: own, end }) => ({ key, notes: [own], since, seconds: end - onset }))
        .sort((a, b) => a.key - b.key),
      released: before.filter((one) => !kept.includes(one)).map(({ key }) => key),
      seconds: index === 0 ? 0 : onset - onsets[index - 1]!,
      free,
      phraseStart: index === 0,
      onBeat: Math.abs(at - Math.round(at)) < 1e-6 && group[0]!.grace !== true,
      rolled,
    };
  });
  return { hand, part: 0, slices };
}

/** Quarter notes of so many ticks. */
function lowestTerms(ticks: number): Fraction {
  let [divisor, rest] = [TICKS, ticks];
  while (rest !== 0) [divisor, rest] = [rest, divisor % rest];
  return { num: ticks / divisor, den: TICKS / divisor };
}

/** Grace notes from this one up to the note that they lead to. */
function graceNotesFrom(groups: readonly (readonly Strike[])[], nth: number): number {
  let count = 0;
  while (groups[nth + count]?.at(0)?.grace) count++;
  return count;
}

/** Strikes at equal distances, `unit` quarter notes each. */
export function even(keys: readonly (number | readonly number[])[], unit: number, from = 0): Strike[] {
  return keys.map((own, nth) => ({
    at: from + nth * unit,
    keys: typeof own === 'number' ? [own] : own,
  }));
}
