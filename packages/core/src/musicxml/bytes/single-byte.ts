/** The UTF-16 code of each of the 256 bytes; `NO_CHARACTER` where a byte has none. */
export type SingleByteTable = Uint16Array;

const NO_CHARACTER = 0xfffd;
const CHUNK = 0x8000;
/** Names of single-byte encodings in TextDecoder (WHATWG Encoding, "Legacy single-byte encodings"). */
const NAMES = /^(?:ibm866|iso-8859-\d+(?:-i)?|koi8-[ru]|macintosh|windows-\d+|x-mac-cyrillic)$/;
/** TextDecoder takes these for windows-1252, which reads 0x80 to 0x9f, or all beyond ASCII, differently. */
const LATIN: ReadonlyMap<string, number> = new Map([
  ...['iso-8859-1', 'iso_8859-1', 'iso_8859_1', 'iso8859-1', 'latin1', 'l1'].map(
    (name) => [name, 256] as const,
  ),
  ...['us-ascii', 'ascii', 'iso646-us'].map((name) => [name, 128] as const),
]);

/** @param name in lower case; undefined where it is not a single-byte encoding */
export function singleByteTable(name: string): SingleByteTable | undefined {
  const latin = LATIN.get(name);
  if (latin !== undefined)
    return Uint16Array.from({ length: 256 }, (_, byte) => (byte < latin ? byte : NO_CHARACTER));
  try {
    const decoder = new TextDecoder(name);
    if (!NAMES.test(decoder.encoding)) return undefined;
    // As a stream: else some versions of Node take windows-1252 for ISO-8859-1. ASCII by itself: ICU's IBM866 swaps
    // control characters.
    return Uint16Array.from({ length: 256 }, (_, byte) =>
      byte < 0x80 ? byte : decoder.decode(Uint8Array.of(byte), { stream: true }).charCodeAt(0),
    );
  } catch {
    return undefined;
  }
}

/** Offset of the first byte without a character; -1 where all have one. */
export function firstUnknown(bytes: Uint8Array, characters: SingleByteTable): number {
  return bytes.findIndex((byte) => characters[byte] === NO_CHARACTER);
}

export function fromSingleByte(bytes: Uint8Array, characters: SingleByteTable): string {
  const pieces: string[] = [];
  const codes = new Uint16Array(CHUNK);
  for (let from = 0; from < bytes.length; from += CHUNK) {
    const length = Math.min(CHUNK, bytes.length - from);
    for (let at = 0; at < length; at++) codes[at] = characters[bytes[from + at] as number] as number;
    pieces.push(String.fromCharCode(...codes.subarray(0, length)));
  }
  return pieces.join('');
}

/** The inverse of `fromSingleByte`; a character that the encoding lacks becomes a numeric character reference. */
export function toSingleByte(text: string, characters: SingleByteTable): Uint8Array {
  const bytes = new Map<string, number>();
  characters.forEach((code, byte) => {
    if (code !== NO_CHARACTER) bytes.set(String.fromCharCode(code), byte);
  });
  const safe = text.replace(/[\u0080-\u{10ffff}]/gu, (char) =>
    bytes.has(char) ? char : `&#x${(char.codePointAt(0) as number).toString(16).toUpperCase()};`,
  );
  const result = new Uint8Array(safe.length);
  for (let at = 0; at < safe.length; at++) {
    const code = safe.charCodeAt(at);
    result[at] = code < 0x80 ? code : (bytes.get(safe.charAt(at)) as number);
  }
  return result;
}
