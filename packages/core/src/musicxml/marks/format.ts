/**
 * How our marks are found again, in every version of MusicXML and without private elements.
 *
 * 1. A processing instruction `<?handline KIND DATA?>` stands right before each element we insert, and in the
 *    place of each digit we took out. XML allows instructions anywhere, no schema or DTD sees them. DATA is the text
 *    that we wrote, so that a mark which somebody has changed since is theirs and no longer ours.
 * 2. Programs that save a file anew drop instructions, so our words carry a record of themselves and of the digits
 *    around them as well, in the name of a font, which programs keep (`record/token.ts`).
 */
export interface Instruction {
  /** `kept` holds a digit of the user's that we took out. */
  readonly kind: 'digit' | 'cue' | 'dashes' | 'legend' | 'kept';
  readonly text: string;
}

const TARGET = 'handline';

/**
 * Before the text of a digit that version 0.2.0 wrote as an alternate one. None are written any more: of several digits at
 * a note some programs show the last one only.
 */
export const ALTERNATE = 'A';

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

export function writeInstruction({ kind, text }: Instruction): string {
  return `<?${TARGET} ${kind} ${encode(text)}?>`;
}

/** @param source a whole instruction, `<?` and `?>` included; undefined where it is none of ours */
export function readInstruction(source: string): Instruction | undefined {
  const [, kind, data] = /^<\?handline\s+(digit|cue|dashes|legend|kept)\s+([^?]*?)\s*\?>$/.exec(source) ?? [];
  const text = data === undefined ? undefined : decode(data);
  if (kind === undefined || text === undefined) return undefined;
  if (kind === 'digit' && !/^(?:[1-5](?:-[1-5])?|A[1-5])$/.test(text)) return undefined;
  if (kind === 'dashes' && !/^(?:start|stop)-[1-6]$/.test(text)) return undefined;
  return { kind: kind as Instruction['kind'], text };
}

/** Cheap: false means that no instruction of ours can be in the text. */
export function mayHaveInstructions(text: string): boolean {
  return text.includes(`<?${TARGET} `);
}
