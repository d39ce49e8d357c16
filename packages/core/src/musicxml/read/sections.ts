import { firstNotBefore } from '../../numeric/binary-search.js';
import type { FlowElement, PartDraft } from './drafts.js';

/** A measure, or a piece of one between barlines that stand within it; ticks from the measure's start. */
export interface Section {
  readonly measure: number;
  readonly from: number;
  readonly to: number;
}

/** The measures of a score, cut at their inner barlines, and which section a place in a measure belongs to. */
export class Sections {
  readonly list: readonly Section[];
  /** Index of every measure's first section, and one more. */
  private readonly firsts: readonly number[];

  /** @param starts starts of all measures in ticks, one more than there are */
  constructor(drafts: readonly PartDraft[], starts: readonly number[]) {
    const cuts = new Map<number, Set<number>>();
    for (const { flow } of drafts) {
      for (const mark of flow) {
        const { measure, tick } = mark;
        const length = (starts[measure + 1] as number) - (starts[measure] as number);
        if (!isInner(mark) || tick <= 0 || tick >= length) continue;
        cuts.set(measure, (cuts.get(measure) ?? new Set()).add(tick));
      }
    }
    const list: Section[] = [];
    const firsts = [0];
    for (let measure = 0; measure + 1 < starts.length; measure++) {
      const length = (starts[measure + 1] as number) - (starts[measure] as number);
      let from = 0;
      for (const to of [...(cuts.get(measure) ?? [])].sort((a, b) => a - b).concat(length)) {
        list.push({ measure, from, to });
        from = to;
      }
      firsts.push(list.length);
    }
    [this.list, this.firsts] = [list, firsts];
  }

  /** The section that begins with a mark: the one at or around an inner mark, else the first of the measure. */
  begunBy(mark: FlowElement): number {
    return isInner(mark) ? this.around(mark) : (this.firsts[mark.measure] as number);
  }

  /** The section that ends with a mark: the one before or around an inner mark, else the last of the measure. */
  endedBy(mark: FlowElement): number {
    return isInner(mark) ? this.before(mark) : (this.firsts[mark.measure + 1] as number) - 1;
  }

  /** The section whose end a word such as "Fine" speaks of, which stands somewhere over it or at its end. */
  before(mark: FlowElement): number {
    return this.lastFrom(mark.measure, mark.tick - 1);
  }

  /** The section that a sign such as a segno stands in, or at whose start. */
  around(mark: FlowElement): number {
    return this.lastFrom(mark.measure, mark.tick);
  }

  /** The last section of the measure that begins at or before the tick, else its first. */
  private lastFrom(measure: number, tick: number): number {
    const [first, end] = [this.firsts[measure] as number, this.firsts[measure + 1] as number];
    return firstNotBefore(this.list, tick, beginsBy, first + 1, end) - 1;
  }
}

function beginsBy({ from }: Section, tick: number): boolean {
  return from <= tick;
}

function isInner({ element }: FlowElement): boolean {
  return element.name === 'barline' && element.attribute('location') === 'middle';
}
