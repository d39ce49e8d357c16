import type { Page } from './drawn.js';
import { between, nearPairs } from './rows.js';
import { type Box, type Curve, overlap, touches } from './shapes.js';

/** What is wrong with our texts and the digits on pages, each as a line for people. */
export interface Faults {
  /** A text of ours on another. */
  readonly onOurs: readonly string[];
  /** Side by side with another text of ours or of the score's, nearer than a letter's width. */
  readonly near: readonly string[];
  /** On a digit. */
  readonly onDigits: readonly string[];
  /** On dynamics, hairpins, words, lyrics and other signs of the score. */
  readonly onSigns: readonly string[];
  /** Struck by a slur. */
  readonly struck: readonly string[];
  /** A digit on another or on a sign. */
  readonly digits: readonly string[];
  /** A digit under the end of a slur. */
  readonly atEnds: readonly string[];
}

/** Slurs and texts only graze each other where they meet by less than this, in verovio's units; a staff space has 180. */
const SLACK = 20;

export function faultsOf(pages: readonly Page[]): Faults {
  const faults = {
    onOurs: [],
    near: [],
    onDigits: [],
    onSigns: [],
    struck: [],
    digits: [],
    atEnds: [],
  } as Record<keyof Faults, string[]>;
  for (const [nth, { boxes, slurs }] of pages.entries()) {
    const tell = (one: Box, what: string) => `p. ${nth + 1} s. ${one.system}: ${one.text} on ${what}`;
    const ours = boxes.filter((box) => box.ours).map(inset);
    for (const [at, one] of ours.entries()) {
      for (const other of ours.slice(at + 1))
        if (overlap(one, other)) faults.onOurs.push(tell(one, other.text));
      for (const other of boxes) {
        if (other.ours || !overlap(one, other)) continue;
        faults[other.kind === 'fing' ? 'onDigits' : 'onSigns'].push(tell(one, `${other.kind} ${other.text}`));
      }
      if (slurs.some((slur) => touches(one, slur))) faults.struck.push(tell(one, 'a slur'));
    }
    for (const [one, other] of nearPairs(boxes))
      faults.near.push(tell(one, `${other.text}, ${Math.round(between(one, other))} off`));
    const signs = boxes.filter((box) => !box.ours);
    for (const [at, one] of signs.entries()) {
      if (one.kind !== 'fing') continue;
      const digit = inset(one);
      for (const [nth, other] of signs.entries()) {
        if (nth === at || (other.kind === 'fing' && nth < at) || !overlap(digit, other)) continue;
        faults.digits.push(tell(one, `${other.kind} ${other.text}`));
      }
      if (slurs.some((slur) => ends(slur).some((end) => touches(digit, end))))
        faults.atEnds.push(tell(one, 'a slur'));
    }
  }
  return faults;
}

/** Points of a curve at either end that count as its end: about a tenth of it. */
const END_POINTS = 5;

function ends(curve: Curve): Curve[] {
  return [curve.slice(0, END_POINTS), curve.slice(-END_POINTS)];
}

function inset(box: Box): Box {
  const { left, right, top, bottom } = box;
  return { ...box, left: left + SLACK, right: right - SLACK, top: top + SLACK, bottom: bottom - SLACK };
}

export function tellFaults(faults: Faults): string {
  const counts = Object.entries(faults).map(
    ([name, list]: [string, readonly string[]]) => `${name} ${list.length}`,
  );
  return counts.join(', ');
}
