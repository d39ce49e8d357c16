import type { WarningCode } from '../../../score/errors.js';
import { resolve } from '../../xml/references.js';
import type { XmlElement } from '../../xml/tree.js';
import { align, type Row, strayed, transposition } from '../record/align.js';
import { byMoment, firstFrom, type Head, headsOf, type PartHeads } from '../record/heads.js';
import { type HeadRecord, isTelling, restorable, type Token } from '../record/token.js';
import { DIGIT_CHANGED, digitsOf, saysDigit } from './match.js';
import type { FoundToken } from './scan.js';

/** What the records say of digits of which no instruction tells any more. */
export interface RecordedDigits {
  /** Digits that are certainly ours, and the user's that go back in their place. */
  readonly ours: readonly { readonly digit: XmlElement; readonly kept: string }[];
  /** The user's digits that go back beside what stands there now. */
  readonly beside: readonly {
    readonly note: XmlElement;
    /** The first digit that the note has. */
    readonly first: XmlElement | undefined;
    readonly kept: string;
  }[];
  readonly warnings: readonly { readonly at: number; readonly message: string; readonly code: WarningCode }[];
}

const NOTHING: RecordedDigits = { ours: [], beside: [], warnings: [] };

/**
 * @param told number of digits of ours that instructions tell of: where they tell of all, the records add nothing
 * @param claimed ids of the elements of which instructions tell
 */
export function recordedDigits(
  root: XmlElement,
  tokens: readonly FoundToken[],
  told: number,
  claimed: ReadonlySet<number>,
): RecordedDigits {
  const carriers = new Map<XmlElement, Token>();
  let recorded = 0;
  for (const { words, token } of tokens) {
    const direction = words.parent?.parent;
    const own = [...token.before, ...token.from].filter(isTelling).length;
    if (own === 0 || direction === undefined || carriers.has(direction)) continue;
    carriers.set(direction, token);
    recorded += own;
  }
  if (recorded === 0 || told >= recorded) return NOTHING;
  const finding = new Finding(root.prefix, claimed);
  for (const part of headsOf(root, new Set(carriers.keys()))) {
    const rows = rowsOf(part, carriers);
    const shift = transposition(rows);
    const found = strayed(
      rows,
      rows.map((row) => align(row, shift, says)),
      shift,
      says,
    );
    for (const [nth, row] of rows.entries()) finding.add(row, found[nth] as readonly (Head | undefined)[]);
    finding.tellUntold(part.heads, untoldOf(part, carriers) - told);
  }
  return finding.done();
}

function says({ element }: Head, text: string): boolean {
  return digitsOf(element).some((digit) => saysDigit(digit, text));
}

/** Digits of ours in a part of which no record tells, because somebody has taken out or changed the words that had it. */
function untoldOf({ moments }: PartHeads, carriers: ReadonlyMap<XmlElement, Token>): number {
  let [most, recorded] = [0, 0];
  for (const direction of moments.keys()) {
    const { all, before, from } = carriers.get(direction) as Token;
    most = Math.max(most, all);
    recorded += [...before, ...from].filter(isTelling).length;
  }
  return most - recorded;
}

/** The records of a part, each with the heads among which it looks for its own: those up to the next words. */
function rowsOf({ heads, moments }: PartHeads, carriers: ReadonlyMap<XmlElement, Token>): Row[] {
  const places = [...moments].sort(([, a], [, b]) => byMoment(a, b));
  const starts = places.map(([, moment]) => firstFrom(heads, moment));
  const rows: Row[] = [];
  for (const [at, [direction]] of places.entries()) {
    const { before, from } = carriers.get(direction) as Token;
    const start = starts[at] as number;
    if (before.length > 0) rows.push({ records: before, heads: heads.slice(starts[at - 1] ?? 0, start) });
    let next = at + 1;
    while (starts[next] === start) next++;
    if (from.length > 0) rows.push({ records: from, heads: heads.slice(start, starts[next]) });
  }
  return rows;
}

class Finding {
  readonly #ours: { digit: XmlElement; kept: string }[] = [];
  readonly #beside: RecordedDigits['beside'][number][] = [];
  readonly #warnings: { at: number; message: string; code: WarningCode }[] = [];
  readonly #taken = new Set<number>();

  constructor(
    private readonly prefix: string,
    private readonly claimed: ReadonlySet<number>,
  ) {}

  add({ records, heads }: Row, found: readonly (Head | undefined)[]): void {
    let lost = 0;
    let near = heads[0];
    for (const [at, record] of records.entries()) {
      const head = found[at];
      near = head ?? near;
      if (!isTelling(record)) continue;
      if (head !== undefined) this.#settle(head, record);
      else {
        if (record.written !== undefined) lost += 1;
        this.#tellLost(record, near);
      }
    }
    const isLeft = heads.some((head) => !found.includes(head) && digitsOf(head.element).length > 0);
    if (lost > 0 && near !== undefined && isLeft) {
      const digits = lost === 1 ? 'a digit of ours belongs' : `${lost} digits of ours belong`;
      const message = `${digits} to notes near here that were changed since; what stands there was left`;
      this.#warn(near.element, message, 'NOT_OURS');
    }
  }

  /** @param untold number of digits of ours of which nothing tells */
  tellUntold(heads: readonly Head[], untold: number): void {
    if (untold <= 0) return;
    const left = heads.find(({ element }) => !this.#taken.has(element.id) && digitsOf(element).length > 0);
    if (left === undefined) return;
    const digits = untold === 1 ? 'a digit of ours' : `${untold} digits of ours`;
    const message = `the words that told of ${digits} were taken out or changed; what is left of them was left as yours`;
    this.#warn(left.element, message, 'NOT_OURS');
  }

  done(): RecordedDigits {
    return { ours: this.#ours, beside: this.#beside, warnings: this.#warnings };
  }

  #settle({ element }: Head, record: HeadRecord): void {
    const { written } = record;
    const digits = digitsOf(element);
    // Instructions tell of it, or other records do.
    const isClaimed = ({ id }: XmlElement) => this.claimed.has(id);
    if (this.#taken.has(element.id) || isClaimed(element) || digits.some(isClaimed)) return;
    this.#taken.add(element.id);
    const ours = written === undefined ? undefined : digits.findLast((digit) => saysDigit(digit, written));
    const others = digits.filter((digit) => digit !== ours).map((digit) => digit.text.trim());
    const kept = this.#missing(record, others);
    if (ours !== undefined) {
      this.#ours.push({ digit: ours, kept });
      return;
    }
    // Ours has been taken out, or changed: then there is one that was not there before.
    const before = (record.kept ?? []).map(textIn);
    const changed = digits.find((digit) => !before.includes(digit.text.trim()));
    if (changed !== undefined && written !== undefined) this.#warn(changed, DIGIT_CHANGED, 'NOT_OURS');
    if (kept !== '') this.#beside.push({ note: element, first: digits[0], kept });
  }

  /** What was taken out and is not among the digits that stand there. */
  #missing({ kept = [] }: HeadRecord, there: readonly string[]): string {
    const left = [...there];
    return kept
      .flatMap((source) => restorable(source, this.prefix) ?? [])
      .filter((source) => {
        const at = left.indexOf(textIn(source));
        if (at >= 0) left.splice(at, 1);
        return at < 0;
      })
      .join('');
  }

  #tellLost({ kept = [] }: HeadRecord, near: Pick<Head, 'element'> | undefined): void {
    if (near === undefined) return;
    for (const source of kept) {
      const message = `your digit ${textIn(source)}, which ours replaced, cannot go back: its note was changed since`;
      this.#warn(near.element, message, 'DIGIT_LOST');
    }
  }

  #warn({ span }: XmlElement, message: string, code: WarningCode): void {
    this.#warnings.push({ at: span.start, message, code });
  }
}

function textIn(source: string): string {
  return resolve(source.replaceAll(/<[^>]*>/g, '')).trim();
}
