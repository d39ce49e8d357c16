import type { Reach } from './reach.js';

/**
 * What a mark of ours says of itself where programs drop our instructions: the name of a font that no reader has,
 * last in the `font-family` of its words. Every program that we measured keeps that list, see docs/other-programs.md.
 *
 *     handline-CHECK                  the words whose text has this check
 *     handline-CHECK-MEASURES-TICK    and behind which our dashes go on, so many measures and into the last so many ticks
 *     handline-CHECK.nALL.FROM        and the note heads from there on to the next words that say so
 *     handline-CHECK.nALL.BEFORE.FROM and, in the first of a part, the note heads before it
 *
 * ALL is the number of digits that we wrote in the part: it tells of those whose words somebody has taken out.
 *
 * A head is its pitch class (a is C, l is B), then the digit that we wrote, if any, behind an A if as an alternate one (version
 * 0.2.0), then each digit of the user's that we took out, for it or for none, between exclamation marks: `c3e5-4g1!2!`.
 */
export interface Token {
  readonly check: string;
  /** Of our dashes behind the words. */
  readonly reach?: Reach;
  /** Digits of ours in the part. */
  readonly all: number;
  readonly before: readonly HeadRecord[];
  readonly from: readonly HeadRecord[];
}

export interface HeadRecord {
  /** Semitones above C. */
  readonly pitch: number;
  /** The text of the `<fingering>` that we wrote, behind `ALTERNATE` if it is an alternate one. */
  readonly written?: string | undefined;
  /** The user's `<fingering>` elements that we took out. */
  readonly kept?: readonly string[] | undefined;
}

/** Whether a record tells of anything that we did. */
export function isTelling({ written, kept }: HeadRecord): boolean {
  return written !== undefined || (kept !== undefined && kept.length > 0);
}

const NAME = 'handline-';
const TOKEN =
  /(?:^|,)\s*handline-([0-9a-z]{1,7})(?:-(\d{1,4})-(\d{1,6}))?(?:\.n(\d{1,7}))?(?:\.([\w!-]*))?(?:\.([\w!-]*))?\s*(?:,|$)/;
const HEAD = /([a-l])([1-5](?:-[1-5])?|A[1-5])?((?:![\w-]*!)*)/y;
const FIRST = 'a'.charCodeAt(0);
/** A digit that can be put back anywhere: nothing in it but text and plain attributes. */
const PLAIN = /^<fingering(?:\s+[\w.-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*\s*(?:\/>|>([^<]*)<\/fingering\s*>)$/;
const BROKEN_REFERENCE = /&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\da-fA-F]+);)/;
/** What is no text, and CDATA, which is text as it stands. */
const NO_TEXT = /<!\[CDATA\[([\s\S]*?)\]\]>|<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<[^>]*>/g;
const BARE = /^<fingering>([^<]*)<\/fingering>$/;

/** The same for texts that differ in white space only, which programs rearrange. FNV-1a, 32 bits. */
export function checkOf(text: string): string {
  let hash = 0x811c9dc5;
  for (const char of text.replaceAll(/\s/g, ''))
    hash = Math.imul(hash ^ (char.codePointAt(0) as number), 0x01000193);
  return (hash >>> 0).toString(36);
}

/** What stands before what `writeHeads` gives. */
export function tokenName(text: string): string {
  return NAME + checkOf(text);
}

/**
 * @param all digits of ours in the part
 * @returns what follows `tokenName`; nothing where we changed the digits of no head
 */
export function writeHeads(all: number, before: readonly HeadRecord[], from: readonly HeadRecord[]): string {
  const [early, late] = [headsText(before), headsText(from)];
  if (early === '' && late === '') return '';
  return early === '' ? `.n${all}.${late}` : `.n${all}.${early}.${late}`;
}

function headsText(heads: readonly HeadRecord[]): string {
  const last = heads.findLastIndex(isTelling);
  return heads
    .slice(0, last + 1)
    .map(headText)
    .join('');
}

function headText({ pitch, written = '', kept = [] }: HeadRecord): string {
  const letter = String.fromCharCode(FIRST + pitch);
  return letter + written + kept.map((source) => `!${encoded(BARE.exec(source)?.[1] ?? source)}!`).join('');
}

/** @param family value of a `font-family` */
export function readToken(family: string | undefined): Token | undefined {
  if (family === undefined || !family.includes(NAME)) return undefined;
  const [, check, measures, tick, all, first, second] = TOKEN.exec(family) ?? [];
  if (check === undefined) return undefined;
  const [before, from] = second === undefined ? ['', first ?? ''] : [first ?? '', second];
  const reach = measures === undefined ? undefined : { measures: Number(measures), tick: Number(tick) };
  return {
    check,
    ...(reach && { reach }),
    all: Number(all ?? 0),
    before: readHeads(before),
    from: readHeads(from),
  };
}

function readHeads(text: string): HeadRecord[] {
  const heads: HeadRecord[] = [];
  HEAD.lastIndex = 0;
  while (HEAD.lastIndex < text.length) {
    const found = HEAD.exec(text);
    if (found === null) return heads;
    const [, letter = '', written, kept = ''] = found;
    const sources = kept.match(/![\w-]*!/g)?.map((one) => decoded(one.slice(1, -1)));
    heads.push({
      pitch: letter.charCodeAt(0) - FIRST,
      written,
      kept: sources?.flatMap((source) => source ?? []),
    });
  }
  return heads;
}

function encoded(text: string): string {
  return encodeURIComponent(text)
    .replaceAll(/[_.!~*'()]/g, (char) => `%${char.charCodeAt(0).toString(16)}`)
    .replaceAll('%', '_');
}

function decoded(text: string): string | undefined {
  try {
    const source = decodeURIComponent(text.replaceAll('_', '%'));
    return source.startsWith('<') ? source : `<fingering>${source}</fingering>`;
  } catch {
    return undefined;
  }
}

/**
 * A digit of the user's as it is recorded: without what only its own file understands.
 *
 * @param prefix of the names in the file, with its colon; or empty
 */
export function recordable(source: string, prefix: string): string {
  const bare = prefix === '' ? source : source.replaceAll(`<${prefix}`, '<').replaceAll(`</${prefix}`, '</');
  if (PLAIN.test(bare) && !BROKEN_REFERENCE.test(bare)) return bare;
  const text = bare.replaceAll(NO_TEXT, (_, characters: string | undefined) => escaped(characters ?? ''));
  return `<fingering>${text.replaceAll(new RegExp(BROKEN_REFERENCE, 'g'), '&amp;')}</fingering>`;
}

function escaped(characters: string): string {
  return characters.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}

/** A recorded digit as it goes back into a file; undefined for what is no digit. */
export function restorable(source: string, prefix: string): string | undefined {
  if (!PLAIN.test(source) || BROKEN_REFERENCE.test(source)) return undefined;
  return prefix === '' ? source : source.replace('<', `<${prefix}`).replace('</', `</${prefix}`);
}

/** True for what may hold a token of ours; cheap. */
export function mayHaveToken(text: string): boolean {
  return text.includes(NAME);
}
