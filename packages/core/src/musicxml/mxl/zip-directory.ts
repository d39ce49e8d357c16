import { MAX_ARCHIVE_ENTRIES } from '../../options/limits.js';
import { HandlineError, type Place } from '../../score/errors.js';

/** One entry of an archive as its central directory lists it. Offsets are into the archive. */
export interface ZipEntry {
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly compressedSize: number;
  readonly size: number;
  readonly crc: number;
  /** Offset of its record in the central directory. */
  readonly record: number;
  /** Offset of its local header. */
  readonly local: number;
  /** Offset of its data. */
  readonly data: number;
}

export interface ZipDirectory {
  readonly entries: readonly ZipEntry[];
  /** Offset and end of the central directory. */
  readonly start: number;
  readonly end: number;
  /** Offset of the record that ends the archive. */
  readonly tail: number;
}

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const TAIL = 0x06054b50;
const TAIL_LENGTH = 22;
const LONGEST_COMMENT = 0xffff;

/**
 * Reads the central directory (APPNOTE.TXT of the ZIP format, sections 4.3.7, 4.3.12, 4.3.16), which fflate does not
 * give whole: dates, extra fields and order are needed to write an archive back as it was.
 * @throws HandlineError ARCHIVE, UNSAFE or LIMIT
 */
export function readZipDirectory(bytes: Uint8Array, place: Place): ZipDirectory {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tail = findTail(view, place);
  const count = view.getUint16(tail + 10, true);
  const size = view.getUint32(tail + 12, true);
  const start = view.getUint32(tail + 16, true);
  if (view.getUint16(tail + 4, true) !== 0 || start === 0xffffffff || count === 0xffff) {
    throw broken('is a multi-part or ZIP64 archive, which is not supported; compress it again', place);
  }
  if (count > MAX_ARCHIVE_ENTRIES) {
    throw new HandlineError('LIMIT', `has ${count} archive entries, more than ${MAX_ARCHIVE_ENTRIES}`, place);
  }
  if (start + size > tail) throw broken('has a damaged archive directory; compress it again', place);
  const entries: ZipEntry[] = [];
  const names = new Set<string>();
  let at = start;
  for (let index = 0; index < count; index++) {
    if (at + 46 > start + size || view.getUint32(at, true) !== CENTRAL) {
      throw broken('has a damaged archive directory; compress it again', place);
    }
    const entry = readEntry(bytes, view, at, start, place);
    if (names.has(entry.name))
      throw broken(`has the archive entry ${JSON.stringify(entry.name)} twice`, place);
    names.add(entry.name);
    entries.push(entry);
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return { entries, start, end: start + size, tail };
}

function findTail(view: DataView, place: Place): number {
  const last = view.byteLength - TAIL_LENGTH;
  let loose: number | undefined;
  for (let at = last; at >= 0; at--) {
    if (loose !== undefined && at < last - LONGEST_COMMENT) break;
    if (view.getUint32(at, true) !== TAIL) continue;
    if (at + TAIL_LENGTH + view.getUint16(at + 20, true) === view.byteLength) return at;
    // Bytes that somebody has added behind the archive, however many: all that it holds is there before them.
    if (view.getUint32(at + 12, true) + view.getUint32(at + 16, true) === at) loose ??= at;
  }
  if (loose !== undefined) return loose;
  throw broken('is a damaged or truncated archive; compress it again', place);
}

function readEntry(bytes: Uint8Array, view: DataView, at: number, end: number, place: Place): ZipEntry {
  const nameLength = view.getUint16(at + 28, true);
  const name = new TextDecoder('utf-8').decode(bytes.subarray(at + 46, at + 46 + nameLength));
  checkPath(name, place);
  const local = view.getUint32(at + 42, true);
  if (local + 30 > end || view.getUint32(local, true) !== LOCAL) {
    throw broken(`has a damaged archive entry ${JSON.stringify(name)}; compress it again`, place);
  }
  const data = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  const compressedSize = view.getUint32(at + 20, true);
  if (data + compressedSize > end)
    throw broken(`has a truncated archive entry ${JSON.stringify(name)}`, place);
  if ((view.getUint16(at + 8, true) & 1) === 1) {
    throw broken(`has an encrypted archive entry ${JSON.stringify(name)}; remove the encryption`, place);
  }
  return {
    name,
    method: view.getUint16(at + 10, true),
    crc: view.getUint32(at + 16, true),
    compressedSize,
    size: view.getUint32(at + 24, true),
    record: at,
    local,
    data,
  };
}

/** Refuses paths that would leave a folder into which the archive is unpacked. */
export function checkPath(name: string, place: Place): void {
  const parts = name.split(/[/\\]/);
  if (name === '' || parts.includes('..') || /^[/\\]|^[A-Za-z]:|\0/.test(name)) {
    throw new HandlineError(
      'UNSAFE',
      `the archive path ${JSON.stringify(name.slice(0, 60))} leaves the archive; it is refused`,
      place,
    );
  }
}

export function broken(message: string, place: Place): HandlineError {
  return new HandlineError('ARCHIVE', message, place);
}
