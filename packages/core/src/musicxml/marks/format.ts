import type { Finger } from '../../score/model.js';

/**
 * How our marks are found again, in every version of MusicXML and without private elements.
 *
 * 1. A processing instruction `<?handline KIND DATA?>` stands right before each element we insert, and in the
 *    place of each digit we took out. XML allows instructions anywhere, no schema or DTD sees them. DATA says
 *    what we wrote, so that a mark which somebody has changed since is theirs and no longer ours.
 * 2. Programs that save a file anew may drop instructions, so the visible element carries the colour
 *    `#000001`: visually black, legal wherever colours are, and kept by programs that keep colours.
 *    MusicXML has colours since 1.1 (from memory); a score that declares 1.0 gets instructions alone. A digit that
 *    stands in the place of one of the user's carries `#000002`: where the instruction that keeps theirs is dropped,
 *    the loss can be told.
 */
const SIGNATURE_COLOR = '#000001';
const REPLACING_COLOR = '#000002';

const TARGET = 'handline';
const SIGNATURE = /#(?:FF)?00000[12]\b/i;

export type FingerRole = 'main' | 'substitution' | 'alternate';

export interface WrittenFinger {
  readonly finger: Finger;
  readonly role: FingerRole;
}

/** What one instruction says about the element after it; `kept` holds a digit of the user's that we took out. */
export type Instruction =
  | { readonly kind: 'digit'; readonly fingers: readonly WrittenFinger[] }
  | { readonly kind: 'cue' | 'legend' | 'kept'; readonly text: string };

const ROLE_CODE: Readonly<Record<FingerRole, string>> = { main: '', substitution: 's', alternate: 'a' };
const ROLE_OF: ReadonlyMap<string, FingerRole> = new Map([
  ['', 'main'],
  ['s', 'substitution'],
  ['a', 'alternate'],
]);

/** Percent-encoded text is free of `?>`, of quotes (some parsers pair them in instructions) and of non-ASCII. */
function encode(text: string): string {
  return encodeURIComponent(text).replaceAll("'", '%27');
}

function decode(data: string): string | undefined {
  try {
    return decodeURIComponent(data);
  } catch {
    return undefined;
  }
}

export function writeInstruction(instruction: Instruction): string {
  const data =
    instruction.kind === 'digit'
      ? instruction.fingers.map(({ finger, role }) => `${ROLE_CODE[role]}${finger}`).join(' ')
      : encode(instruction.text);
  return `<?${TARGET} ${instruction.kind} ${data}?>`;
}

/** @param source a whole instruction, `<?` and `?>` included; undefined where it is none of ours */
export function readInstruction(source: string): Instruction | undefined {
  const [, kind, data] = /^<\?handline\s+(digit|cue|legend|kept)\s+([^?]*?)\s*\?>$/.exec(source) ?? [];
  if (kind === undefined || data === undefined) return undefined;
  if (kind === 'cue' || kind === 'legend' || kind === 'kept') {
    const text = decode(data);
    return text === undefined ? undefined : { kind, text };
  }
  const fingers: WrittenFinger[] = [];
  for (const code of data.split(/\s+/)) {
    const [, letter, digit] = /^([sa]?)([1-5])$/.exec(code) ?? [];
    const role = ROLE_OF.get(letter ?? '?');
    if (role === undefined) return undefined;
    fingers.push({ finger: Number(digit) as Finger, role });
  }
  return { kind: 'digit', fingers };
}

/** True where a `color` attribute is our signature; re-saved files may add the opaque alpha. */
export function isSignature(color: string | undefined): boolean {
  return color !== undefined && /^#(?:FF)?00000[12]$/i.test(color.trim());
}

/** True where a `color` attribute says that a digit of ours stands in the place of one of the user's. */
export function isReplacing(color: string | undefined): boolean {
  return color !== undefined && /^#(?:FF)?000002$/i.test(color.trim());
}

/** The colour of a digit in the place of one of the user's, where `color` signs the others. */
export function replacing(color: string | undefined): string | undefined {
  return color === undefined ? undefined : REPLACING_COLOR;
}

/** The colour to sign with, or none where the declared version has no colours. */
export function signatureFor(version: string): string | undefined {
  const [major = 1, minor = 0] = version.split('.').map(Number);
  return major > 1 || (major === 1 && minor >= 1) ? SIGNATURE_COLOR : undefined;
}

/** Cheap: false means that no mark of ours can be in the text. */
export function mayHaveMarks(text: string): boolean {
  return text.includes(`<?${TARGET} `) || SIGNATURE.test(text);
}
