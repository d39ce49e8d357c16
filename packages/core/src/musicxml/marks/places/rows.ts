import type { XmlElement } from '../../xml/tree.js';
import type { CueMark } from '../edit.js';

/**
 * Heights of rows in tenths, above the top line of the staff and below it: five spaces off the staff, where programs that
 * take heights literally seldom find a note. verovio sets texts of one value level and at no given height; so rows that
 * follow each other differ.
 */
const HEIGHTS = { above: 50, below: -90 };
const DIFFERENT_ROWS = 20;

/** What stands outside cues, or is moved out of their way before a row is lifted. */
const IN_THE_WAY = new Set(['direction', 'harmony', 'figured-bass']);

/** The heights of the cues of one part: `default-y` of those in rows. */
export class RowHeights {
  readonly #busy = new Map<number, boolean>();

  /**
   * @param measures of the part
   * @param end first measure with words that stand outside cues
   */
  constructor(
    private readonly measures: readonly XmlElement[],
    private readonly end: number,
  ) {}

  /** Undefined where a cue is in no row, or something of the score's may be in its way. */
  of({ row, placement }: CueMark, measure: number): string | undefined {
    // What begins in a measure reaches into the next.
    if (row === undefined || this.#isBusy(measure) || this.#isBusy(measure - 1)) return undefined;
    const step = row % DIFFERENT_ROWS;
    return String(HEIGHTS[placement] + (placement === 'above' ? step : -step));
  }

  #isBusy(measure: number): boolean {
    let busy = this.#busy.get(measure);
    if (busy === undefined) {
      busy = measure >= this.end || (this.measures[measure]?.children.some(isInTheWay) ?? false);
      this.#busy.set(measure, busy);
    }
    return busy;
  }
}

function isInTheWay(element: XmlElement): boolean {
  if (element.name === 'barline') return element.child('ending') !== undefined;
  return IN_THE_WAY.has(element.name);
}
