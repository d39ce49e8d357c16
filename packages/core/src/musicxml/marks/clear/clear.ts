import type { Warning, WarningCode } from '../../../score/errors.js';
import { behindContent } from '../../xml/space.js';
import type { XmlElement } from '../../xml/tree.js';
import { findSite, type Level } from '../digit.js';
import type { Edit } from '../edit.js';
import { applyEdits } from '../edits.js';
import { type Instruction, mayHaveInstructions } from '../format.js';
import { startTagEnd } from '../layout.js';
import { checkOf, mayHaveToken, readToken } from '../record/token.js';
import { recordedDashes, saysDashes } from './dashes.js';
import {
  DIGIT_CHANGED,
  digitsOf,
  fingeringsIn,
  holdsFingeringsOnly,
  isElement,
  isPlain,
  noteAround,
  onlyWords,
  parsedText,
  saysDigit,
  wordsIn,
} from './match.js';
import { recordedDigits } from './recorded.js';
import { type FoundInstruction, type FoundToken, type Scan, scanMarks } from './scan.js';

export interface ClearedText {
  readonly text: string;
  /** In coordinates of the text that was given. */
  readonly edits: readonly Edit[];
  /**
   * NOT_OURS for what looks like a mark of ours but was changed, and was therefore left; DIGIT_LOST where a digit of
   * the user's that we replaced cannot go back.
   */
  readonly warnings: readonly Warning[];
}

/** Longest text of the user's that a warning quotes, in characters. */
const LONGEST_QUOTE = 60;

function quoted(text: string): string {
  return text.length > LONGEST_QUOTE ? `"${text.slice(0, LONGEST_QUOTE)}..."` : `"${text}"`;
}

/** Collects the edits; what it has claimed once is not looked at again. */
class Clearing {
  readonly edits: Edit[] = [];
  readonly warnings: Warning[] = [];
  readonly #claimed = new Set<number>();
  /** Digits of ours that instructions have told. */
  #told = 0;
  /** Words of ours of which no instruction tells. */
  readonly #saved: FoundToken[] = [];

  constructor(
    private readonly text: string,
    private readonly root: XmlElement,
    private readonly scan: Scan,
  ) {}

  run(): void {
    for (const found of this.scan.instructions) this.#follow(found);
    for (const found of this.scan.tokens) if (!this.#claimed.has(found.words.id)) this.#followToken(found);
    this.#removeDashes();
    this.#followRecords();
  }

  #follow(found: FoundInstruction): void {
    const { instruction, element, start, end } = found;
    if (instruction === undefined) {
      this.#warn(start, 'an instruction of an unknown kind was left as it is');
    } else if (instruction.kind === 'kept') {
      this.#restore(found, instruction.text);
    } else if (!isInPlace(found, this.scan.enclosing(start))) {
      this.#warn(start, `an instruction that stands where we write none was left as it is`);
    } else if (instruction.kind === 'digit') {
      this.#removeDigit(found, instruction.text);
    } else if (element !== undefined && this.#isOurs(element, instruction)) {
      for (const words of wordsIn(element)) this.#claimed.add(words.id);
      this.#remove(behindContent(this.text, start), element.span.end);
    } else {
      const left = element === undefined ? [] : wordsIn(element);
      this.#leave(left);
      this.#remove(start, end);
      const { kind, text } = instruction;
      const what = kind === 'dashes' ? 'an end of our dashes' : `the ${kind} ${quoted(text)}`;
      const isThere = left.length > 0 || (kind === 'dashes' && element?.within('dashes').length === 1);
      const [is, then] = isThere ? CHANGED : ['is not there any more', 'nothing to take out'];
      this.#warn(start, `${what} ${is}; ${then}`);
    }
  }

  #isOurs(direction: XmlElement, { kind, text }: Instruction): boolean {
    if (kind === 'dashes') return saysDashes(direction, text) && isPlain(this.text, direction);
    const words = onlyWords(direction);
    return (
      words.some((one) => readToken(one.attribute('font-family')) !== undefined) &&
      words.map(parsedText).join('') === text &&
      isPlain(this.text, direction)
    );
  }

  #restore({ start, end }: FoundInstruction, original: string): void {
    const fits = isElement(original) && this.scan.enclosing(start).name === 'technical';
    if (fits) {
      this.edits.push({ start, end, text: original });
      const note = noteAround(this.scan.enclosing(start));
      if (note !== undefined) this.#claimed.add(note.id);
    } else
      this.#warn(
        start,
        `the original digit ${quoted(original)} cannot go back here; its instruction was left`,
      );
  }

  #removeDigit({ start, end, element }: FoundInstruction, digit: string): void {
    const found = element === undefined ? [] : fingeringsIn(element);
    const ours = found.find(
      (one) => saysDigit(one, digit) && one.attribute('placement') !== undefined && isPlain(this.text, one),
    );
    this.#told += 1;
    if (element !== undefined && ours !== undefined && !this.#claimed.has(ours.id)) {
      this.#claimed.add(ours.id);
      if (found.length === 1 && holdsFingeringsOnly(element) && isPlain(this.text, element)) {
        this.#remove(behindContent(this.text, start), element.span.end);
        return;
      }
      this.#remove(start, end);
      this.#remove(behindContent(this.text, ours.span.start), ours.span.end);
      return;
    }
    this.#remove(start, end);
    for (const one of found) this.#claimed.add(one.id);
    const note = element === undefined ? undefined : noteAround(element);
    const isChanged = found.length > 0 || (note !== undefined && digitsOf(note).length > 0);
    this.#warn(
      start,
      isChanged ? DIGIT_CHANGED : 'a digit of ours is not there any more; nothing to take out',
    );
  }

  /** Words of a score that was saved without our instructions. */
  #followToken({ words, token }: FoundToken): void {
    const direction = words.parent?.parent;
    const all = direction === undefined ? [] : onlyWords(direction);
    if (
      direction !== undefined &&
      all.length > 0 &&
      checkOf(all.map(parsedText).join('')) === token.check &&
      isPlain(this.text, direction)
    ) {
      for (const one of all) this.#claimed.add(one.id);
      this.#saved.push({ words, token });
      this.#remove(behindContent(this.text, direction.span.start), direction.span.end);
    } else this.#leaveWords(all.length > 0 ? all : [words]);
  }

  #removeDashes(): void {
    for (const direction of recordedDashes(this.root, this.#saved))
      if (isPlain(this.text, direction))
        this.#remove(behindContent(this.text, direction.start), direction.end);
  }

  #leaveWords(words: readonly XmlElement[]): void {
    this.#leave(words);
    const [first] = words;
    if (first === undefined) return;
    const message = `the words ${quoted(words.map(parsedText).join(' '))} hold a cue of ours but were changed since; left`;
    this.#warn(first.span.start, message);
  }

  /** Digits of a score that was saved without our instructions. */
  #followRecords(): void {
    const recorded = recordedDigits(this.root, this.scan.tokens, this.#told, this.#claimed);
    const doomed = new Map<number, XmlElement>();
    for (const { digit, kept } of recorded.ours) {
      this.#claimed.add(digit.id);
      if (kept === '') doomed.set(digit.id, digit);
      else this.edits.push({ ...digit.span, text: kept });
    }
    this.#removeDigits(doomed);
    for (const { note, first, kept } of recorded.beside) this.#putBack(note, first, kept);
    for (const { at, message, code } of recorded.warnings) this.#warn(at, message, code);
  }

  #putBack(note: XmlElement, first: XmlElement | undefined, kept: string): void {
    const site = first === undefined ? findSite(this.text, note, note.span.start) : undefined;
    const at = site?.at ?? first?.span.start;
    if (at === undefined) return;
    const { prefix } = note;
    let text = kept;
    const levels: readonly Level[] = ['technical', 'notations'];
    for (const level of site === undefined ? [] : levels.slice(0, LEVELS.indexOf(site.level)))
      text = `<${prefix}${level}>${text}</${prefix}${level}>`;
    this.edits.push({ start: at, end: at, text });
  }

  /** Wrappers that hold nothing but digits of ours go with them. */
  #removeDigits(doomed: Map<number, XmlElement>): void {
    for (const wrapper of ['technical', 'notations']) {
      for (const { parent } of [...doomed.values()]) {
        if (parent?.name !== wrapper || doomed.has(parent.id)) continue;
        if (parent.children.every((child) => doomed.has(child.id)) && isPlain(this.text, parent))
          doomed.set(parent.id, parent);
      }
    }
    for (const { start, end, parent } of doomed.values()) {
      if (parent === undefined || !doomed.has(parent.id)) this.#remove(behindContent(this.text, start), end);
    }
  }

  /** What somebody changed is theirs from now on: without our token a later run takes it for no mark of ours. */
  #leave(words: readonly XmlElement[]): void {
    for (const element of words) {
      if (this.#claimed.has(element.id)) continue;
      this.#claimed.add(element.id);
      if (readToken(element.attribute('font-family')) === undefined) continue;
      const { start } = element.span;
      const tag = this.text.slice(start, startTagEnd(this.text, element));
      const [attribute = ''] = /\sfont-family\s*=\s*(?:"[^"]*"|'[^']*')/.exec(tag) ?? [];
      this.#remove(start + tag.indexOf(attribute), start + tag.indexOf(attribute) + attribute.length);
    }
  }

  #remove(start: number, end: number): void {
    this.edits.push({ start, end, text: '' });
  }

  #warn(at: number, message: string, code: WarningCode = 'NOT_OURS'): void {
    this.warnings.push({ code, message, place: this.scan.place(at) });
  }
}

/** What stands at a site is wrapped in all that comes before its level. */
const LEVELS: readonly Level[] = ['fingering', 'technical', 'notations'];
const CHANGED = ['has been changed since', 'what stands there was left'] as const;

/** False where we write no instruction of this kind, so that a stranger must have. */
function isInPlace({ instruction, element }: FoundInstruction, around: XmlElement): boolean {
  if (instruction?.kind === 'digit') return noteAround(around) !== undefined;
  return around.name === 'measure' || around.name === 'part' || element?.name === 'direction';
}

/**
 * Takes our marks out of a score and puts the user's replaced digits back. On a text as `writeMarks` left it
 * the result is the original, byte for byte; after another program has saved it, every mark that is certainly ours
 * is taken out.
 *
 * @param root the element tree of `text`
 * @param file name for the warnings
 */
export function clearMarks(text: string, root: XmlElement, file?: string): ClearedText {
  if (!mayHaveInstructions(text) && !mayHaveToken(text)) return { text, edits: [], warnings: [] };
  const clearing = new Clearing(text, root, scanMarks(text, root, file));
  clearing.run();
  const { edits, warnings } = clearing;
  return { text: applyEdits(text, edits), edits, warnings };
}
