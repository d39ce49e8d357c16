import type { Limits } from '../../options/options.js';
import { HandlineError, type Place } from '../../score/errors.js';
import { type Archive, archiveOf, isArchive } from '../mxl/container.js';
import { keepOriginal, repack, restoreOriginal } from '../mxl/original-entry.js';
import { decodeText, detectEncoding, type Encoding, encodeText, type Pieces } from './encoding.js';

/** The text of a score and everything that is needed to write it back in the form in which it came. */
export interface Decoded {
  /** XML text without byte-order mark. */
  readonly text: string;
  readonly encoding: Encoding;
  /** The input. */
  readonly original: Uint8Array;
  /** Where the input was an .mxl archive. */
  readonly archive?: Archive;
}

/**
 * @param input a MusicXML file in UTF-8, UTF-16 or a single-byte encoding, or a compressed .mxl
 * @param file name for messages
 * @throws HandlineError EMPTY, NOT_XML, ENCODING, ARCHIVE, UNSAFE, LIMIT
 */
export function decode(input: Uint8Array, limits: Limits, file?: string): Decoded {
  const place: Place = file === undefined ? {} : { file };
  if (input.length === 0) throw new HandlineError('EMPTY', 'is empty; give a MusicXML file', place);
  if (input.length > limits.maxBytes) throw tooLong(limits, file);
  if (!isArchive(input)) return { ...decodeBytes(input, place), original: input };
  // Subclasses may share memory where Uint8Array copies: Node's Buffer does in `slice`.
  const bytes = new Uint8Array(input.buffer, input.byteOffset, input.byteLength);
  const { archive, content } = archiveOf(bytes, limits, place);
  return { ...decodeBytes(content, place), original: input, archive };
}

/** Bytes in the form of the input. */
export interface Encoded {
  readonly bytes: Uint8Array;
  /** True where an archive's score is back but its original compression was lost on the way. */
  readonly repacked: boolean;
}

/**
 * The bytes of a new text in the same form; the input itself where the text is the same. An archive keeps its score as
 * it was compressed before the first mark, and gets it back with the text of that time.
 * @param unmarked the input's text without our marks
 */
export function encode(decoded: Decoded, text: Pieces, unmarked = decoded.text): Encoded {
  const { archive, encoding, original } = decoded;
  if (isText(text, decoded.text)) return { bytes: original, repacked: false };
  const bytes = encodeText(text, encoding);
  if (archive === undefined) return { bytes, repacked: false };
  const before = restoreOriginal(archive, encodeText([unmarked], encoding));
  if (isText(text, unmarked)) {
    return before === undefined
      ? { bytes: repack(archive, bytes), repacked: true }
      : { bytes: before.bytes, repacked: false };
  }
  if (before !== undefined) return { bytes: keepOriginal(before, bytes), repacked: false };
  return {
    bytes: unmarked === decoded.text ? keepOriginal(archive, bytes) : repack(archive, bytes),
    repacked: false,
  };
}

/** Whether pieces make up a text. */
function isText(pieces: Pieces, text: string): boolean {
  let at = 0;
  for (const piece of pieces) {
    if (!text.startsWith(piece, at)) return false;
    at += piece.length;
  }
  return at === text.length;
}

/** The refusal of a score with too many bytes. */
export function tooLong({ maxBytes }: Limits, file?: string): HandlineError {
  const message = `has more than ${maxBytes} bytes (limits.maxBytes)`;
  return new HandlineError('LIMIT', message, file === undefined ? {} : { file });
}

function decodeBytes(bytes: Uint8Array, place: Place): { text: string; encoding: Encoding } {
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) {
    throw new HandlineError('ARCHIVE', 'is compressed by gzip; unpack it first', place);
  }
  const encoding = detectEncoding(bytes, place);
  const text = decodeText(bytes, encoding, place);
  if (encoding.bom > 0 && text.startsWith('\ufeff'))
    throw new HandlineError('NOT_XML', 'begins with two byte-order marks; save it again', place);
  return { text, encoding };
}
