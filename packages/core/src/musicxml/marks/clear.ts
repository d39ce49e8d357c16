import type { Warning, WarningCode } from '../../score/errors.js';
import { behindContent } from '../xml/space.js';
import type { XmlElement } from '../xml/tree.js';
import {
  fingeringsIn,
  holdsFingeringsOnly,
  isPlain,
  isSigned,
  onlyWords,
  parsedText,
  saysFinger,
  wordsIn,
} from './clear-match.js';
import { type FoundInstruction, type Scan, scanMarks } from './clear-scan.js';
import type { Edit } from './edit.js';
import { applyEdits } from './edits.js';
import { isReplacing, mayHaveMarks, type WrittenFinger } from './format.js';
import { indexAt, startTagEnd } from './layout.js';

export interface ClearedText {
  readonly text: string;
  /** In coordinates of the text that was given. */
  readonly edits: readonly Edit[];
  /**
   * NOT_OURS for what looks like a mark of ours but was changed, and was therefore left; DIGIT_LOST where a digit of
   * the user's that we replaced is no longer in the file.
   */
  readonly warnings: readonly Warning[];
}

/** Collects the edits; what it has claimed once is not looked at again. */
class Clearing {
  readonly edits: Edit[] = [];
  readonly warnings: Warning[] = [];
  readonly #claimed = new Set<XmlElement>();
  /** Notes that have their own digits back, and those whose loss has been reported. */
  readonly #settled = new Set<XmlElement | undefined>();

  constructor(
    private readonly text: string,
    private readonly scan: Scan,
  ) {}

  run(): void {
    for (const found of this.scan.instructions) this.#follow(found);
    const digits: XmlElement[] = [];
    for (const element of this.scan.signed) {
      if (this.#claimed.has(element)) continue;
      if (element.name === 'fingering') digits.push(element);
      else this.#removeSignedWords(element);
    }
    this.#removeSignedDigits(digits);
  }

  #follow(found: FoundInstruction): void {
    const { instruction, element, start, end } = found;
    if (instruction === undefined) {
      this.#warn(start, 'an instruction of an unknown kind was left as it is');
    } else if (instruction.kind === 'kept') {
      this.#restore(found, instruction.text);
    } else if (instruction.kind === 'digit') {
      this.#removeDigits(found, instruction.fingers);
    } else {
      const words = element === undefined ? undefined : onlyWords(element);
      if (
        element !== undefined &&
        words !== undefined &&
        parsedText(words) === instruction.text &&
        isPlain(this.text, element)
      ) {
        this.#claimed.add(words);
        this.#remove(behindContent(this.text, start), element.span.end);
      } else {
        this.#leave(element === undefined ? [] : wordsIn(element));
        this.#remove(start, end);
        this.#warn(
          start,
          `the ${instruction.kind} "${instruction.text}" has been changed since; what stands there was left`,
        );
      }
    }
  }

  #restore({ start, end }: FoundInstruction, original: string): void {
    const fits = original.startsWith('<') && this.scan.enclosing(start).name === 'technical';
    if (fits) {
      this.edits.push({ start, end, text: original });
      this.#settled.add(noteAround(this.scan.enclosing(start)));
    } else this.#warn(start, `the original digit ${original} cannot go back here; its instruction was left`);
  }

  #removeDigits({ start, end, element }: FoundInstruction, fingers: readonly WrittenFinger[]): void {
    const siblings = element?.parent?.children ?? [];
    const from = element === undefined ? 0 : indexAt(siblings, element.span.start);
    const single = element !== undefined && element.name === 'fingering';
    const range =
      element === undefined ? [] : single ? siblings.slice(from, from + fingers.length) : [element];
    const fingerings = range.flatMap(fingeringsIn);
    const ours = fingerings.filter((fingering, index) => {
      const finger = fingers[index];
      if (finger === undefined || this.#claimed.has(fingering)) return false;
      return saysFinger(fingering, finger) && isPlain(this.text, fingering);
    });
    for (const fingering of ours) this.#claimed.add(fingering);
    const last = range.at(-1);
    const whole = ours.length === fingers.length && fingerings.length === fingers.length;
    if (whole && last !== undefined && this.#isOursAlone(range)) {
      this.#remove(behindContent(this.text, start), last.span.end);
      return;
    }
    this.#remove(start, end);
    for (const { span } of ours) this.#remove(behindContent(this.text, span.start), span.end);
    if (ours.length === fingers.length) return;
    this.#leave(fingerings);
    this.#warn(start, "a digit has been changed since we wrote it; it was left as the user's own");
  }

  /** True for siblings in a row that hold fingerings and nothing that somebody else has put between. */
  #isOursAlone(range: readonly XmlElement[]): boolean {
    return range.every((element, index) => {
      const previous = range[index - 1];
      const follows =
        previous === undefined || behindContent(this.text, element.span.start) === previous.span.end;
      return follows && holdsFingeringsOnly(element) && isPlain(this.text, element);
    });
  }

  #removeSignedWords(words: XmlElement): void {
    const holder = words.name === 'words' ? words.parent?.parent : words.parent;
    if (holder !== undefined && onlyWords(holder) === words && isPlain(this.text, holder)) {
      this.#remove(behindContent(this.text, holder.span.start), holder.span.end);
    } else {
      const message = `"${parsedText(words)}" looks like a cue of ours but stands among others; left`;
      this.#warn(words.span.start, message);
    }
  }

  /** Wrappers that hold nothing but digits of ours go with them. */
  #removeSignedDigits(digits: readonly XmlElement[]): void {
    const ours = new Set<XmlElement>();
    for (const digit of digits) {
      if (/^[1-5]$/.test(digit.text.trim()) && isPlain(this.text, digit)) {
        ours.add(digit);
        this.#warnOfLoss(digit);
      } else this.#warn(digit.span.start, `"${digit.text}" has our colour but is no digit of ours; left`);
    }
    for (const wrapper of ['technical', 'notations']) {
      for (const parent of new Set([...ours].map((element) => element.parent))) {
        if (parent?.name !== wrapper || !parent.children.every((child) => ours.has(child))) continue;
        if (isPlain(this.text, parent)) ours.add(parent);
      }
    }
    for (const element of ours) {
      if (element.parent !== undefined && ours.has(element.parent)) continue;
      this.#remove(behindContent(this.text, element.span.start), element.span.end);
    }
  }

  #warnOfLoss(digit: XmlElement): void {
    const note = noteAround(digit);
    if (!isReplacing(digit.attribute('color')) || this.#settled.has(note)) return;
    this.#settled.add(note);
    const message = "the user's digit that ours replaced was dropped when another program saved the file";
    this.#warn(digit.span.start, message, 'DIGIT_LOST');
  }

  /** What somebody changed is theirs from now on: it loses our colour, so that later runs do not take it for ours. */
  #leave(elements: readonly XmlElement[]): void {
    for (const element of elements) {
      if (this.#claimed.has(element)) continue;
      this.#claimed.add(element);
      if (!isSigned(element)) continue;
      const { start } = element.span;
      const tag = this.text.slice(start, startTagEnd(this.text, element));
      const [attribute = ''] = /\scolor\s*=\s*(?:"[^"]*"|'[^']*')/.exec(tag) ?? [];
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

function noteAround(element: XmlElement): XmlElement | undefined {
  let around: XmlElement | undefined = element;
  while (around !== undefined && around.name !== 'note') around = around.parent;
  return around;
}

/**
 * Takes our marks out of a score and puts the user's replaced digits back. On a text as `writeMarks` left it
 * the result is the original, byte for byte; after another program has saved it, every mark that the program
 * has left recognisable is taken out.
 *
 * @param root the element tree of `text`
 * @param file name for the warnings
 */
export function clearMarks(text: string, root: XmlElement, file?: string): ClearedText {
  if (!mayHaveMarks(text)) return { text, edits: [], warnings: [] };
  const clearing = new Clearing(text, scanMarks(text, root, file));
  clearing.run();
  const { edits, warnings } = clearing;
  return { text: applyEdits(text, edits), edits, warnings };
}
