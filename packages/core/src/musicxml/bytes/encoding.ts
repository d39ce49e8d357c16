import { firstNotBefore } from '../../numeric/binary-search.js';
import { HandlineError, type Place } from '../../score/errors.js';
import {
  firstUnknown,
  fromSingleByte,
  type SingleByteTable,
  singleByteTable,
  toSingleByte,
} from './single-byte.js';

/** An encoding that is read and written back unchanged. */
export interface Encoding {
  /** `utf-8`, `utf-16le`, `utf-16be`, or the declared name of a one-byte encoding in lower case. */
  readonly name: string;
  /** Length of the byte-order mark in bytes; 0 without one. */
  readonly bom: number;
  /** Of a one-byte encoding. */
  readonly characters?: SingleByteTable;
}

const LATIN1 = singleByteTable('iso-8859-1') as SingleByteTable;
const DECLARATION = /^<\?xml\s[^>]*?\bencoding\s*=\s*["']([^"'>]{1,40})["']/;

/**
 * By byte-order mark, else by the zero bytes of UTF-16, else as declared, else UTF-8 (XML 1.0, appendix F).
 * @throws HandlineError ENCODING where the encoding is declared but not supported
 */
export function detectEncoding(bytes: Uint8Array, place: Place): Encoding {
  const [a = -1, b = -1, c = -1, d = -1] = bytes;
  if ((a === 0xff && b === 0xfe && c === 0 && d === 0) || (a === 0 && b === 0 && c === 0xfe && d === 0xff)) {
    throw new HandlineError('ENCODING', 'is encoded in UTF-32; save it as UTF-8', place);
  }
  if (a === 0xef && b === 0xbb && c === 0xbf) return { name: 'utf-8', bom: 3 };
  if (a === 0xff && b === 0xfe) return { name: 'utf-16le', bom: 2 };
  if (a === 0xfe && b === 0xff) return { name: 'utf-16be', bom: 2 };
  if (a === 0x3c && b === 0 && c !== 0) return { name: 'utf-16le', bom: 0 };
  if (a === 0 && b === 0x3c && c === 0) return { name: 'utf-16be', bom: 0 };
  const declared = DECLARATION.exec(fromSingleByte(bytes.subarray(0, 512), LATIN1))?.[1] ?? 'utf-8';
  const name = declared.trim().toLowerCase();
  if (name === 'utf-8' || name === 'utf8') return { name: 'utf-8', bom: 0 };
  const characters = singleByteTable(name);
  if (characters !== undefined) return { name, bom: 0, characters };
  const message = name.startsWith('utf-16')
    ? `declares ${declared} but is not encoded that way; save it as UTF-8`
    : `is encoded in ${declared}, which is not supported; save it as UTF-8`;
  throw new HandlineError('ENCODING', message, place);
}

/**
 * Text without its byte-order mark.
 * @throws HandlineError ENCODING where the bytes do not fit the encoding; nothing is replaced silently. NOT_XML where they
 * do not begin as XML does, either
 */
export function decodeText(bytes: Uint8Array, { name, bom, characters }: Encoding, place: Place): string {
  const body = bytes.subarray(bom);
  if (characters !== undefined) {
    const bad = firstUnknown(body, characters);
    if (bad !== -1) throw invalid(name, body, bad, place);
    return fromSingleByte(body, characters);
  }
  const label = name === 'utf-8' ? 'utf-8' : 'utf-16le';
  const input = name === 'utf-16be' ? swapped(body) : body;
  try {
    return new TextDecoder(label, { fatal: true, ignoreBOM: true }).decode(input);
  } catch (cause) {
    if (name === 'utf-8' && !beginsWithTag(body))
      throw new HandlineError('NOT_XML', 'is not a MusicXML file; export the score as MusicXML', place, {
        cause,
      });
    throw invalid(name, body, firstInvalid(input, label), place, cause);
  }
}

/** A text in pieces, none of which ends within a character: to join those of a long one takes twice the memory. */
export type Pieces = readonly string[];

/** UTF-16 units that are encoded together: few enough that V8 soon gives back what they are joined in. */
const BATCH = 1 << 15;

/** The inverse of `decodeText`; a character that the encoding lacks becomes a numeric character reference. */
export function encodeText(text: Pieces, encoding: Encoding): Uint8Array {
  // In UTF-8 a long text is encoded into one array of its length: beside its pieces it would take as much again.
  if (encoding.name === 'utf-8') return encodeUtf8(text, encoding);
  const encoded: Uint8Array[] = [];
  if (encoding.bom > 0) encoded.push(utf16('\ufeff', encoding.name));
  for (let from = 0, to = 0, length = 0; to < text.length; ) {
    length += (text[to++] as string).length;
    if (length < BATCH && to < text.length) continue;
    encoded.push(encodeBatch(text.slice(from, to).join(''), encoding));
    [from, length] = [to, 0];
  }
  return encoded.length === 1 ? (encoded[0] as Uint8Array) : joined(encoded);
}

function encodeUtf8(text: Pieces, { bom }: Encoding): Uint8Array {
  const encoder = new TextEncoder();
  const bytes = new Uint8Array(text.reduce((sum, piece) => sum + piece.length + bytesMore(piece), bom));
  bytes.set([0xef, 0xbb, 0xbf].slice(0, bom));
  let at = bom;
  for (const piece of text) at += encoder.encodeInto(piece, bytes.subarray(at)).written;
  return bytes;
}

function encodeBatch(text: string, { name, characters }: Encoding): Uint8Array {
  return characters === undefined ? utf16(text, name) : toSingleByte(text, characters);
}

function utf16(text: string, name: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  const little = name === 'utf-16le';
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), little);
  return bytes;
}

/** True where a text takes more than so many bytes in UTF-8. */
export function isLonger(text: Pieces, most: number): boolean {
  let bytes = 0;
  for (const piece of text) bytes += piece.length;
  // No UTF-16 unit takes more than three.
  if (3 * bytes <= most) return false;
  for (const piece of text) {
    if (bytes > most) return true;
    bytes += bytesMore(piece);
  }
  return bytes > most;
}

/** By how many bytes a text is longer in UTF-8 than in units of UTF-16. */
function bytesMore(text: string): number {
  let bytes = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code >= 0x80) bytes += code < 0x800 || (code >= 0xd800 && code <= 0xdfff) ? 1 : 2;
  }
  return bytes;
}

export function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}

function swapped(bytes: Uint8Array): Uint8Array {
  const result = new Uint8Array(bytes.length);
  for (let i = 0; i + 1 < bytes.length; i += 2) {
    result[i] = bytes[i + 1] as number;
    result[i + 1] = bytes[i] as number;
  }
  if (bytes.length % 2 === 1) result[bytes.length - 1] = bytes[bytes.length - 1] as number;
  return result;
}

/** False for a picture, a PDF and whatever else is no XML. */
function beginsWithTag(bytes: Uint8Array): boolean {
  return bytes.find((byte) => byte !== 0x20 && byte !== 9 && byte !== 10 && byte !== 13) === 0x3c;
}

/** Length of the longest prefix that decodes. */
function firstInvalid(bytes: Uint8Array, label: string): number {
  return firstNotBefore(bytes, label, (_byte, _label, at) => decodes(bytes.subarray(0, at + 1), label));
}

/** True where bytes are a text, or the beginning of one. */
function decodes(bytes: Uint8Array, label: string): boolean {
  try {
    new TextDecoder(label, { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

function invalid(name: string, body: Uint8Array, at: number, place: Place, cause?: unknown): HandlineError {
  let line = 1;
  for (let i = 0; i < at; i++) if (body[i] === 10) line += 1;
  const message = `byte ${at} is not valid ${name.toUpperCase()}; save the file again in the encoding that it declares`;
  return new HandlineError('ENCODING', message, { ...place, line }, { cause });
}
