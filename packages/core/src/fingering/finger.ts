import type { HandModel } from '../anatomy/hand.js';
import type { Line } from '../hands/line.js';
import type { Finger } from '../score/model.js';
import { alikeChoice } from './alike.js';
import { CostTable } from './cost.js';
import { DepthGrid } from './depth.js';
import { explain } from './explain.js';
import { outlooks } from './outlook.js';
import type { LineFingering, SliceFingering } from './result.js';
import { type SliceView, viewLine } from './view.js';
import { DEPTH_WEIGHT, WEIGHTS } from './weights.js';

export interface FingerOptions {
  /** Demand the digits that the file gives. */
  readonly keepDigits: boolean;
}

/** A slice that the hand cannot play as written, or whose given digits contradict the hand. */
export interface FingeringDoubt {
  readonly slice: number;
  readonly kind: 'reach' | 'digits';
}

export interface Fingered {
  readonly fingering: LineFingering;
  readonly doubts: readonly FingeringDoubt[];
}

/** The least-cost fingering of a line for a hand. */
export function fingerLine(line: Line, hand: HandModel, options: FingerOptions): Fingered {
  const views = viewLine(line, hand, options.keepDigits);
  const around = outlooks(views);
  const costs = new CostTable(hand, WEIGHTS);
  const grid = new DepthGrid(hand, DEPTH_WEIGHT);
  const choice = alikeChoice(views, around, costs, grid);
  const chosen = views.map((view, at) => view.candidates[choice.path[at]!]!.fingers);
  const terms = explain(views, around, chosen, choice, hand, grid);
  return {
    fingering: {
      line,
      slices: views.map((view, at) => ({ ...placed(view, chosen[at]!), terms: terms[at]! })),
      cost: choice.cost,
    },
    doubts: views.flatMap((view) =>
      view.trouble === 'none' ? [] : [{ slice: view.index, kind: view.trouble }],
    ),
  };
}

/** Fingers in the order of the slice's own keys. */
function placed(view: SliceView, fingers: readonly Finger[]): Pick<SliceFingering, 'struck' | 'held'> {
  const struck = new Array<Finger | null>(view.slice.struck.length).fill(null);
  const held = new Array<Finger | null>(view.slice.held.length).fill(null);
  fingers.forEach((finger, at) => {
    (view.struck[at] ? struck : held)[view.source[at]!] = finger;
  });
  return { struck, held };
}
