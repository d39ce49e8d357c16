/** What the barlines and jump marks of one measure, or of a section between inner barlines, say. Labels tell several segni or codas apart. */
export interface MeasureFlow {
  readonly repeatStart?: boolean;
  /** Number of times that the section before this measure's end is played, 2 by default; absent: no repeat. */
  readonly repeatEnd?: number;
  /** True where the repeat is taken after a da capo or dal segno too. */
  readonly afterJump?: boolean;
  /** Numbers of the ending (volta) that covers this measure. */
  readonly endings?: readonly number[];
  readonly daCapo?: boolean;
  readonly dalSegno?: string;
  readonly segno?: string;
  readonly toCoda?: string;
  readonly coda?: string;
  readonly fine?: boolean;
}

/** Most times that one section is repeated, jumps that are followed, and times that the score is gone through. */
const MAX_TIMES = 16;
const MAX_JUMPS = 8;
const MAX_LENGTH_RATIO = 20;

/**
 * Unfolds repeats, endings, da capo, dal segno, fine and coda. After a jump repeats are not taken again and the last
 * ending is played, unless a repeat says otherwise (common practice). Marks that make no sense are ignored.
 * @returns indices of the measures in the order in which they are played; at most 20 times as many as measures
 */
export function playingOrder(flow: readonly MeasureFlow[]): number[] {
  const order: number[] = [];
  const done = new Set<number>();
  const most = flow.length * MAX_LENGTH_RATIO;
  const highest = highestEndings(flow);
  let start = 0;
  let pass = 1;
  let jumped = false;
  let inEnding = false;
  let at = 0;
  while (at < flow.length && order.length < most) {
    const measure = flow[at] as MeasureFlow;
    const endings = measure.endings ?? [];
    if (measure.repeatStart === true && at !== start) [start, pass] = [at, 1];
    if (inEnding && endings.length === 0) [start, pass] = [at, 1];
    inEnding = endings.length > 0;
    const last = highest[at] ?? 0;
    if (inEnding && !endings.includes(jumped && measure.afterJump !== true ? last : pass)) {
      at += 1;
      continue;
    }
    order.push(at);
    if (measure.fine === true && jumped) break;
    if (measure.repeatEnd !== undefined) {
      const times = Math.min(Math.max(measure.repeatEnd, last), MAX_TIMES);
      if (pass < times && (!jumped || measure.afterJump === true)) {
        pass += 1;
        at = start;
        inEnding = false;
        continue;
      }
      if (!followedByEnding(flow, at)) [start, pass] = [at + 1, 1];
    }
    const target = jumpFrom(flow, at, jumped);
    if (target !== undefined && !done.has(at) && done.size < MAX_JUMPS) {
      done.add(at);
      jumped = true;
      at = target;
      [start, pass, inEnding] = [at, 1, false];
      continue;
    }
    at += 1;
  }
  return order;
}

/** For every measure the highest number of the endings that stand side by side with its own; 0 without one. */
function highestEndings(flow: readonly MeasureFlow[]): number[] {
  const highest = new Array<number>(flow.length).fill(0);
  for (let first = 0; first < flow.length; ) {
    let end = first;
    let most = 0;
    for (; (flow[end]?.endings ?? []).length > 0; end++) most = Math.max(most, ...(flow[end]?.endings ?? []));
    highest.fill(most, first, end);
    first = Math.max(end, first + 1);
  }
  return highest;
}

function followedByEnding(flow: readonly MeasureFlow[], at: number): boolean {
  return (flow[at]?.endings ?? []).length > 0 && (flow[at + 1]?.endings ?? []).length > 0;
}

function jumpFrom(flow: readonly MeasureFlow[], at: number, jumped: boolean): number | undefined {
  const measure = flow[at] as MeasureFlow;
  if (jumped && measure.toCoda !== undefined) {
    return find(flow, 'coda', measure.toCoda, (index) => index > at);
  }
  if (measure.daCapo === true) return 0;
  if (measure.dalSegno !== undefined) return find(flow, 'segno', measure.dalSegno, (index) => index <= at);
  return undefined;
}

/** The mark with the label, else the first one that may be meant. */
function find(
  flow: readonly MeasureFlow[],
  kind: 'segno' | 'coda',
  label: string,
  possible: (index: number) => boolean,
): number | undefined {
  let first: number | undefined;
  for (let index = 0; index < flow.length; index++) {
    const found = flow[index]?.[kind];
    if (found === undefined || !possible(index)) continue;
    if (found === label) return index;
    first ??= index;
  }
  return first;
}
