import type { Note } from '../../score/model.js';
import { behindContent } from '../xml/space.js';
import type { XmlElement } from '../xml/tree.js';
import type { DigitMark, Edit } from './edit.js';
import { replacing, type WrittenFinger, writeInstruction } from './format.js';
import type { InsertionBuilder, NewElement } from './insertions.js';
import { afterLastChild, isSelfClosed, type Layout, layoutAt, layoutBeside } from './layout.js';

const AFTER_NOTATIONS = new Set(['lyric', 'play', 'listen']);
const EDITORIAL = new Set(['footnote', 'level']);
const ROLE_ATTRIBUTE = {
  main: {},
  substitution: { substitution: 'yes' },
  alternate: { alternate: 'yes' },
} as const;

type Level = 'notations' | 'technical' | 'fingering';

const LEVEL_KEY: Readonly<Record<Level, number>> = { notations: 1, technical: 2, fingering: 3 };
/** Room for the 5 fingers in each role. */
const ROLE_KEY: Readonly<Record<WrittenFinger['role'], number>> = { main: 0, substitution: 5, alternate: 10 };

interface Site {
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
function findSite(text: string, note: XmlElement, noteStart: number): Site | undefined {
  let last: XmlElement | undefined;
  let notations: XmlElement | undefined;
  for (const child of note.children) {
    const { name } = child;
    if (!AFTER_NOTATIONS.has(name)) last = child;
    if (name === 'notations' && !isSetApart(child)) notations ??= child;
  }
  if (last === undefined) return undefined;
  const { start, end } = last.span;
  const layout = layoutAt(text, noteStart, start);
  if (notations === undefined) return { at: end, layout, level: 'notations' };
  if (isSelfClosed(text, notations)) return { ...before(text, note, notations), level: 'notations' };
  const technical = notations.child('technical');
  if (technical !== undefined && isSelfClosed(text, technical))
    return { ...before(text, notations, technical), level: 'technical' };
  const inner = afterLastChild(text, technical ?? notations, layout.unit);
  return { at: inner.at, layout: inner.layout, level: technical === undefined ? 'technical' : 'fingering' };
}

function fingeringElement(
  { finger, role }: WrittenFinger,
  placement: string,
  color: string | undefined,
): NewElement {
  const attributes = { ...ROLE_ATTRIBUTE[role], placement, ...(color === undefined ? {} : { color }) };
  return { name: 'fingering', attributes, text: String(finger) };
}

function wrap(level: Level, fingerings: readonly NewElement[]): readonly NewElement[] {
  if (level === 'fingering') return fingerings;
  const technical: NewElement = { name: 'technical', children: fingerings };
  return [level === 'technical' ? technical : { name: 'notations', children: [technical] }];
}

/** A number, a digit in base 16 for each finger: to make a text for every note costs more than to find what is built. */
function keyOf(
  level: Level,
  placement: DigitMark['placement'],
  fingers: readonly WrittenFinger[],
  replaces: boolean,
): number {
  let key = LEVEL_KEY[level] + (placement === 'above' ? 4 : 0) + (replaces ? 8 : 0);
  for (const { finger, role } of fingers) key = 16 * key + ROLE_KEY[role] + finger;
  return key;
}

function fingersOf(mark: DigitMark): WrittenFinger[] {
  const fingers: WrittenFinger[] = [{ finger: mark.finger, role: 'main' }];
  if (mark.substitution !== undefined) fingers.push({ finger: mark.substitution, role: 'substitution' });
  for (const finger of mark.alternates ?? []) fingers.push({ finger, role: 'alternate' });
  return fingers;
}

/** What the user's own digits on the note already say is not printed twice. */
function missing(fingers: readonly WrittenFinger[], note: Note): readonly WrittenFinger[] {
  if (note.digits.length === 0) return fingers;
  return fingers.filter(
    ({ finger, role }) =>
      !note.digits.some(
        (digit) =>
          digit.finger === finger &&
          digit.substitution === (role === 'substitution') &&
          digit.alternate === (role === 'alternate'),
      ),
  );
}

/** Every `<fingering>` of the note, whether a digit or not, in an instruction that keeps its text. */
function takeOut(text: string, note: XmlElement): Edit[] {
  const edits: Edit[] = [];
  for (const notations of note.children) {
    if (notations.name !== 'notations') continue;
    for (const technical of notations.children) {
      if (technical.name !== 'technical') continue;
      for (const child of technical.children) {
        if (child.name !== 'fingering') continue;
        const { start, end } = child.span;
        edits.push({ start, end, text: writeInstruction({ kind: 'kept', text: text.slice(start, end) }) });
      }
    }
  }
  return edits;
}

/** Edits that print one digit on its own note head, and take out the user's digits there where asked. */
export function writeDigit(
  text: string,
  element: XmlElement,
  note: Note,
  mark: DigitMark,
  options: {
    readonly builder: InsertionBuilder;
    readonly color: string | undefined;
    readonly replace: boolean;
  },
): Edit[] {
  const edits = options.replace ? takeOut(text, element) : [];
  const all = fingersOf(mark);
  const fingers = options.replace ? all : missing(all, note);
  const site = fingers.length === 0 ? undefined : findSite(text, element, note.span.start);
  if (site === undefined) return edits;
  const { at, layout, level } = site;
  const replaces = edits.length > 0;
  const built = options.builder.build(keyOf(level, mark.placement, fingers, replaces), layout, () => {
    const color = replaces ? replacing(options.color) : options.color;
    const fingerings = fingers.map((finger) => fingeringElement(finger, mark.placement, color));
    const instruction = writeInstruction({ kind: 'digit', fingers });
    return { instruction, elements: wrap(level, fingerings) };
  });
  edits.push({ start: at, end: at, text: built });
  return edits;
}
