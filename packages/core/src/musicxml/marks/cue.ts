import { behindContent } from '../xml/space.js';
import type { XmlElement } from '../xml/tree.js';
import type { CueMark, Edit } from './edit.js';
import { writeInstruction } from './format.js';
import { type InsertionBuilder, type NewElement, xmlText } from './insertions.js';
import { indexAt, layoutLike } from './layout.js';
import { tokenName } from './record/token.js';

function textIn(element: XmlElement, name: string): string | undefined {
  return element.textOf(name) || undefined;
}

function isChordMember(note: XmlElement): boolean {
  return note.child('chord') !== undefined;
}

/**
 * The `<note>` before which a direction for `note` may stand: the first of its chord, because some readers move
 * the notes of a chord that a direction interrupts.
 */
function chordHead(note: XmlElement): XmlElement {
  if (!isChordMember(note)) return note;
  const siblings = note.parent?.children ?? [];
  for (let index = indexAt(siblings, note.span.start) - 1; index >= 0; index--) {
    const sibling = siblings[index] as XmlElement;
    if (sibling.name === 'note' && !isChordMember(sibling)) return sibling;
  }
  return note;
}

/** Words at one place, or an end of dashes: `start-6`. */
export interface DirectionText {
  readonly kind: 'cue' | 'dashes' | 'legend';
  readonly text: string;
  /** What the token of words has behind their check. */
  readonly record?: string;
  readonly placement: 'above' | 'below';
  readonly voice: string | undefined;
  readonly staff: string | undefined;
  /** `default-y`. */
  readonly height?: string | undefined;
}

/** A direction to be inserted; `token` stands in its text once, and is empty where it has none. */
export interface Direction {
  /** The note or other element before which it stands, or behind which it ends. */
  readonly head: XmlElement;
  readonly token: string;
  readonly edit: Edit;
}

export interface DirectionOptions {
  readonly builder: InsertionBuilder;
  /** Fonts before our token. */
  readonly fonts: string;
}

/** Says nothing and prints nothing, but programs keep it. */
const BLANK = '\u00a0';

/** In points, smaller than the usual words: what fits behind the last note of a line. */
const SIZE = '8';

function directionElement(direction: DirectionText, fonts: string, token: string): NewElement {
  return {
    name: 'direction',
    attributes: { placement: direction.placement },
    children: [
      { name: 'direction-type', children: [contentOf(direction, fonts, token)] },
      ...(direction.voice === undefined ? [] : [{ name: 'voice', text: direction.voice }]),
      ...(direction.staff === undefined ? [] : [{ name: 'staff', text: direction.staff }]),
    ],
  };
}

function contentOf({ kind, text, height }: DirectionText, fonts: string, token: string): NewElement {
  if (kind !== 'dashes') {
    const font = { 'font-family': `${fonts},${token}`, 'font-size': SIZE };
    const attributes = height === undefined ? font : { 'default-y': height, ...font };
    return { name: 'words', attributes, text };
  }
  const [type = '', number = ''] = text.split('-');
  return { name: 'dashes', attributes: { type, number } };
}

/** A direction right before `head`, or right behind it, which leaves every note at its time. */
export function insertDirection(
  text: string,
  head: XmlElement,
  direction: DirectionText,
  options: DirectionOptions,
  side: 'before' | 'behind' = 'before',
): Direction {
  const { start, end } = head.span;
  const at = side === 'before' ? behindContent(text, start) : end;
  const layout = layoutLike(text, head, start);
  const { kind, placement, voice = '', staff = '', record = '', height = '' } = direction;
  const clean = { ...direction, text: xmlText(direction.text) };
  const token = kind === 'dashes' ? '' : tokenName(clean.text) + record;
  // What is read from XML holds no NUL.
  const key = `${kind}${record} ${placement}${height} ${voice}\0${staff}\0${direction.text}`;
  const built = options.builder.build(key, layout, () => ({
    instruction: writeInstruction({ kind: clean.kind, text: clean.text }),
    elements: [directionElement(clean, options.fonts, token)],
  }));
  return { head, token, edit: { start: at, end: at, text: built } };
}

/**
 * Lines of words at one place, each a direction of its own, because some readers run the lines of one direction
 * together; all readers pile directions up from the staff outwards.
 */
export function insertLines(
  text: string,
  head: XmlElement,
  direction: DirectionText,
  options: DirectionOptions,
): Direction[] {
  const lines = linesOf(direction.text);
  if (direction.placement === 'above') lines.reverse();
  const there = wordsBefore(head, direction.staff);
  return lines
    .filter((line) => !there.has(line.trim()))
    .map((line) => insertDirection(text, head, { ...direction, text: line }, options));
}

function linesOf(text: string): string[] {
  return text.split('\n').filter((line) => line.trim() !== '');
}

/** What stands right before a note in its staff already, such as a cue of ours that has lost all that told it from others. */
function wordsBefore(head: XmlElement, staff: string | undefined): ReadonlySet<string> {
  const there = new Set<string>();
  const siblings = head.parent?.children ?? [];
  for (let at = indexAt(siblings, head.span.start) - 1; siblings[at]?.name === 'direction'; at--) {
    const direction = siblings[at] as XmlElement;
    if (textIn(direction, 'staff') !== staff) continue;
    for (const type of direction.all('direction-type'))
      for (const words of type.all('words'))
        for (const line of words.text.split(/[\r\n]+/)) there.add(line.trim());
  }
  return there;
}

/**
 * A cue goes before the chord of its note, with the staff and voice of the note itself. Where a cross-staff chord
 * begins on another staff the voice is left out: some readers take the first staff that they meet with a voice
 * for the staff of the whole voice, and would move its notes. Its lines are one direction, so that a program moves them
 * out of the way together; what stands there already is not printed again.
 *
 * @param blanks empty lines towards the staff
 * @param record of its dashes
 */
export function writeCue(
  text: string,
  note: XmlElement,
  mark: CueMark & Pick<DirectionText, 'height'>,
  options: DirectionOptions,
  blanks: number,
  record = '',
): Direction[] {
  const { head, ...place } = placeOf(note);
  const { placement, height } = mark;
  const there = wordsBefore(head, place.staff);
  const lines = linesOf(mark.text).filter((line) => !there.has(line.trim()));
  if (lines.length === 0) return [];
  const free = new Array<string>(blanks).fill(BLANK);
  const spaced = placement === 'above' ? [...lines, ...free] : [...free, ...lines];
  const direction = { kind: 'cue', text: spaced.join('\n'), record, placement, height, ...place } as const;
  return [insertDirection(text, head, direction, options)];
}

/** Words for a record alone, before a note. */
export function writeBlank(text: string, note: XmlElement, options: DirectionOptions): Direction {
  const { head, ...place } = placeOf(note);
  return insertDirection(text, head, { kind: 'cue', text: BLANK, placement: 'above', ...place }, options);
}

/** Where a direction for a note stands. */
export function placeOf(note: XmlElement) {
  const head = chordHead(note);
  const staff = textIn(note, 'staff');
  return { head, staff, voice: textIn(head, 'staff') === staff ? textIn(note, 'voice') : undefined };
}
