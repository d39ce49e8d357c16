import type { Span } from '../../score/model.js';
import { rankOf } from './element-order.js';
import { behindContent } from './space.js';

// The parser makes a node of every element and of all white space. What no reading needs is hidden from it in comments
// of the same length, so that offsets stay as they are.

/** A leaf of a `<note>` that only says how it looks. */
const LEAF = '<(type|accidental|stem|beam)(?: [^<>/]*)?>[^<]*</\\1>';
/** One of them up to the next tag; any number of them with the white space before each. */
const LOOKS = new RegExp(`${LEAF}[ \\t\\r\\n]*(?=<(?:[\\w-]|/note>))`, 'y');
const ALL_LOOKS = new RegExp(`(?:[ \\t\\r\\n]*${LEAF})*`, 'y');
const NAME_END = /[\w-]*/y;
/** A note of such a duration is not read by its type. */
const DURATION = /<duration>[1-9]\d{0,8}<\/duration>/y;
/** First letters of the leaves, to pass over other tags quickly. */
const INITIALS: ReadonlySet<number> = new Set([...'tasb'].map((letter) => letter.charCodeAt(0)));
/** Characters of the shortest comment. */
const SHORTEST = '<!---->'.length;

/** The last of the leaves that `withoutUnread` may have hidden right behind an element of a note, or else the element. */
export function lastUnread(text: string, element: Span): Span {
  ALL_LOOKS.lastIndex = element.end;
  ALL_LOOKS.test(text);
  const end = ALL_LOOKS.lastIndex;
  return end > element.end
    ? { start: text.lastIndexOf('<', text.lastIndexOf('<', end - 1) - 1), end }
    : element;
}

/**
 * A well-formed text, its DOCTYPE masked, with comments for what reading a score passes over: white space between tags,
 * and type, accidental, stem and beams of a note. They stay wherever reading may look for them: a type without a usable
 * duration, and whatever is out of place.
 */
export function withoutUnread(text: string): string {
  return new Hiding(text).run();
}

const [EXCLAMATION, SLASH, END] = [33, 47, 62] as const;
const [LETTER_D, LETTER_N] = [100, 110] as const;

class Hiding {
  /** True where the note has a duration to be read by. */
  #timed = false;
  readonly #comments = new Map<number, string>();

  constructor(private readonly text: string) {}

  run(): string {
    const { text } = this;
    let shown = '';
    let done = 0;
    let from = -1;
    let last = 0;
    for (let open = text.indexOf('<'); open !== -1; ) {
      const follows = from !== -1;
      if (!follows) from = this.#blank(last, open);
      const next =
        INITIALS.has(text.charCodeAt(open + 1)) && (follows || text.indexOf('>', last) + 1 === from)
          ? this.#behindLooks(last, open)
          : -1;
      last = open;
      if (next !== -1) {
        open = next;
        continue;
      }
      if (open - from >= SHORTEST) {
        shown += text.slice(done, from) + this.#comment(open - from);
        done = open;
      }
      from = -1;
      open = text.indexOf('<', this.#inside(open));
    }
    return shown + text.slice(done);
  }

  /** Where the white space before a tag begins, unless it is the text of the element that begins at `last`. */
  #blank(last: number, open: number): number {
    const { text } = this;
    const start = behindContent(text, open);
    if (text.charCodeAt(start - 1) !== END) return open;
    const closes = text.charCodeAt(open + 1) === SLASH;
    const content = text.charCodeAt(last + 1) !== SLASH && text.charCodeAt(start - 2) !== SLASH;
    return closes && content ? open : start;
  }

  /** Where the next tag opens if a leaf to be hidden opens here, else -1. */
  #behindLooks(last: number, open: number): number {
    LOOKS.lastIndex = open;
    if (!LOOKS.test(this.text)) return -1;
    const behind = LOOKS.lastIndex;
    if (!this.#timed && this.text.startsWith('<type', open)) return -1;
    const rank = rankOf(this.#nameAt(open));
    const isLast = this.text.startsWith('</', behind);
    const inOrder = rankOf(this.#nameAt(last)) <= rank && (isLast || rank <= rankOf(this.#nameAt(behind)));
    return inOrder ? behind : -1;
  }

  /** The name in a tag. */
  #nameAt(open: number): string {
    const { text } = this;
    const start = text.charCodeAt(open + 1) === SLASH ? open + 2 : open + 1;
    NAME_END.lastIndex = start;
    NAME_END.test(text);
    return text.slice(start, NAME_END.lastIndex);
  }

  /** Takes note of a tag; a comment or CDATA section holds no tags before the place that this returns. */
  #inside(open: number): number {
    const { text } = this;
    switch (text.charCodeAt(open + 1)) {
      case LETTER_N:
        if (text.startsWith('<note', open)) this.#timed = false;
        break;
      case LETTER_D:
        DURATION.lastIndex = open;
        this.#timed = DURATION.test(text);
        break;
      case EXCLAMATION:
        return Math.max(text.indexOf(text.startsWith('<!--', open) ? '-->' : ']]>', open + 4), open + 1);
    }
    return open + 1;
  }

  #comment(length: number): string {
    let comment = this.#comments.get(length);
    if (comment === undefined) {
      comment = `<!--${' '.repeat(length - SHORTEST)}-->`;
      this.#comments.set(length, comment);
    }
    return comment;
  }
}
