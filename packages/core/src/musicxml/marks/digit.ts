import type { Note } from '../../score/model.js';
import { behindContent } from '../xml/space.js';
import type { XmlElement } from '../xml/tree.js';
import type { DigitMark, Edit } from './edit.js';
import { writeInstruction } from './format.js';
import type { InsertionBuilder, NewElement } from './insertions.js';
import { afterLastChild, isSelfClosed, type Layout, layoutAt, layoutBeside } from './layout.js';
import { recordable } from './record/token.js';

const AFTER_NOTATIONS = new Set(['lyric', 'play', 'listen']);
const EDITORIAL = new Set(['footnote', 'level']);

export type Level = 'notations' | 'technical' | 'fingering';

const LEVEL_KEY: Readonly<Record<Level, number>> = { notations: 1, technical: 2, fingering: 3 };

export interface Site {
  readonly at: number;
  readonly layout: Layout;
  readonly level: Level;
}

/** Hidden notations and those of an editorial level are not ours to add to. */
function isSetApart(notations: XmlElement): boolean {
  return (
    notations.attribute('print-object') === 'no' ||
    notations.children.some((child) => EDITORIAL.has(child.name))
  );
}

function before(text: string, parent: XmlElement, sibling: XmlElement): Omit<Site, 'level'> {
  return { at: behindContent(text, sibling.span.start), layout: layoutBeside(text, parent, sibling) };
}

/**
 * Where a digit goes: into the first `<technical>` of the first `<notations>`, because some readers look at no
 * other. A self-closed one stays as it is and gets a sibling before it, for the same reason.
 */
export function findSite(text: string, note: XmlElement, noteStart: number): Site | undefined {
  const last = note.lastExcept(AFTER_NOTATIONS);
  if (last === undefined) return undefined;
  const notations = note.all('notations').find((own) => !isSetApart(own));
  const { start, end } = last;
  const layout = layoutAt(text, noteStart, start);
  if (notations === undefined) return { at: end, layout, level: 'notations' };
  if (isSelfClosed(text, notations)) return { ...before(text, note, notations), level: 'notations' };
  const technical = notations.child('technical');
  if (technical !== undefined && isSelfClosed(text, technical))
    return { ...before(text, notations, technical), level: 'technical' };
  const inner = afterLastChild(text, technical ?? notations, layout.unit);
  return { at: inner.at, layout: inner.layout, level: technical === undefined ? 'technical' : 'fingering' };
}

export function wrap(level: Level, fingerings: readonly NewElement[]): readonly NewElement[] {
  if (level === 'fingering') return fingerings;
  const technical: NewElement = { name: 'technical', children: fingerings };
  return [level === 'technical' ? technical : { name: 'notations', children: [technical] }];
}

/**
 * What is printed for a note, as one text: programs show the first or the last `<fingering>` of a note only, and
 * `4-5` as they show `4`.
 */
function textOf({ finger, substitution }: DigitMark): string {
  return substitution === undefined ? `${finger}` : `${finger}-${substitution}`;
}

/** True where the user's own digits on the note say the same: it is not printed twice. */
function isThere({ finger, substitution }: DigitMark, { digits }: Note): boolean {
  const main = digits.some((digit) => digit.finger === finger && !digit.substitution && !digit.alternate);
  const then = digits.find((digit) => digit.substitution)?.finger;
  return main && (substitution === undefined || then === substitution);
}

/** A number: to make a text for every note costs more than to find what is built. */
function keyOf(level: Level, { finger, substitution, placement }: DigitMark): number {
  const own = LEVEL_KEY[level] + (placement === 'above' ? 4 : 0);
  return own + 8 * (finger + 6 * (substitution ?? 0));
}

const NONE: readonly never[] = Object.freeze([]);

/** Every `<fingering>` of the note, whether a digit or not, in an instruction that keeps its text. */
function takeOut(text: string, note: XmlElement): readonly Edit[] {
  if (!note.has('notations')) return NONE;
  const edits: Edit[] = [];
  for (const notations of note.all('notations')) {
    for (const technical of notations.all('technical')) {
      for (const { start, end } of technical.all('fingering'))
        edits.push({ start, end, text: writeInstruction({ kind: 'kept', text: text.slice(start, end) }) });
    }
  }
  return edits;
}

/** What was done to print a digit. */
export interface WrittenDigit {
  readonly edits: readonly Edit[];
  /** The new text, where there is one. */
  readonly text: string | undefined;
  /** The user's digits on the note, taken out for it or beside it: some programs keep one of several only. */
  readonly kept: readonly string[];
}

/** Takes out the user's digits of a note and prints none in their place. */
export function bareNote(text: string, element: XmlElement): WrittenDigit {
  const edits = takeOut(text, element);
  return { edits, text: undefined, kept: keptBy(edits, text, element) };
}

function keptBy(takingOut: readonly Edit[], text: string, element: XmlElement): readonly string[] {
  if (takingOut.length === 0) return NONE;
  return takingOut.map(({ start, end }) => recordable(text.slice(start, end), element.prefix));
}

/** Prints one digit on its own note head, and takes out the user's digits there where asked. */
export function writeDigit(
  text: string,
  element: XmlElement,
  note: Note,
  mark: DigitMark,
  options: { readonly builder: InsertionBuilder; readonly replace: boolean },
): WrittenDigit {
  const takingOut = takeOut(text, element);
  const kept = keptBy(takingOut, text, element);
  const edits = options.replace ? [...takingOut] : [];
  const site = !options.replace && isThere(mark, note) ? undefined : findSite(text, element, note.span.start);
  if (site === undefined) return { edits, text: undefined, kept };
  const { at, layout, level } = site;
  const written = textOf(mark);
  const built = options.builder.build(keyOf(level, mark), layout, () => {
    const fingering = { name: 'fingering', attributes: { placement: mark.placement }, text: written };
    return {
      instruction: writeInstruction({ kind: 'digit', text: written }),
      elements: wrap(level, [fingering]),
    };
  });
  edits.push({ start: at, end: at, text: built });
  return { edits, text: written, kept };
}
