import type { Note } from '../score/model.js';
import type { DigitMark, Edit } from './edit.js';
import { type WrittenFinger, writeInstruction } from './marks.js';
import type { XmlElement } from './tree.js';
import type { ElementBuilder, NewElement } from './writebuild.js';
import { afterLastChild, isSelfClosed, type Layout, layoutBeside, localName } from './writelayout.js';

const AFTER_NOTATIONS = new Set(['lyric', 'play', 'listen']);
const EDITORIAL = new Set(['footnote', 'level']);
const ROLE_ATTRIBUTE = {
  main: {},
  substitution: { substitution: 'yes' },
  alternate: { alternate: 'yes' },
} as const;

type Level = 'notations' | 'technical' | 'fingering';

interface Site {
  readonly at: number;
  readonly layout: Layout;
  readonly level: Level;
}

/** Children that can take our digit: not self-closed (those stay as they are), not hidden, no editor's level. */
function usable(text: string, parent: XmlElement, name: string): XmlElement[] {
  return parent.children.filter(
    (child) =>
      localName(child) === name &&
      !isSelfClosed(text, child) &&
      child.attribute('print-object') !== 'no' &&
      !child.children.some((inner) => EDITORIAL.has(localName(inner))),
  );
}

/** The innermost place that the schema allows: an existing `<technical>`, else `<notations>`, else the note. */
function findSite(text: string, note: XmlElement): Site | undefined {
  let before: XmlElement | undefined;
  for (const child of note.children) if (!AFTER_NOTATIONS.has(localName(child))) before = child;
  if (before === undefined) return undefined;
  const layout = layoutBeside(text, note, before);
  const notations = usable(text, note, 'notations');
  for (const parent of notations) {
    const technical = usable(text, parent, 'technical')[0];
    if (technical !== undefined)
      return { ...afterLastChild(text, technical, layout.unit), level: 'fingering' };
  }
  const first = notations[0];
  if (first !== undefined) return { ...afterLastChild(text, first, layout.unit), level: 'technical' };
  return { at: before.span.end, layout, level: 'notations' };
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

function fingersOf(mark: DigitMark): WrittenFinger[] {
  const fingers: WrittenFinger[] = [{ finger: mark.finger, role: 'main' }];
  if (mark.substitution !== undefined) fingers.push({ finger: mark.substitution, role: 'substitution' });
  if (mark.alternate !== undefined) fingers.push({ finger: mark.alternate, role: 'alternate' });
  return fingers;
}

/** What the user's own digits on the note already say is not printed twice. */
function missing(fingers: readonly WrittenFinger[], note: Note): readonly WrittenFinger[] {
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
    if (localName(notations) !== 'notations') continue;
    for (const technical of notations.children) {
      if (localName(technical) !== 'technical') continue;
      for (const child of technical.children) {
        if (localName(child) !== 'fingering') continue;
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
    readonly builder: ElementBuilder;
    readonly color: string | undefined;
    readonly replace: boolean;
  },
): Edit[] {
  const edits = options.replace ? takeOut(text, element) : [];
  const all = fingersOf(mark);
  const fingers = options.replace ? all : missing(all, note);
  const site = fingers.length === 0 ? undefined : findSite(text, element);
  if (site === undefined) return edits;
  const { at, layout, level } = site;
  const codes = writeInstruction({ kind: 'digit', fingers });
  const key = `${level} ${mark.placement} ${codes}`;
  const lines = wrap(
    level,
    fingers.map((finger) => fingeringElement(finger, mark.placement, options.color)),
  );
  const built = lines.map((line, index) => options.builder.build(`${key} ${index}`, layout, () => line));
  const lead = `${layout.newline}${layout.indent}`;
  edits.push({ start: at, end: at, text: `${lead}${codes}${built.join(lead)}` });
  return edits;
}
