import { deflateSync, Inflate } from 'fflate';
import type { Limits } from '../options.js';
import { HandlineError, type Place } from '../score/errors.js';
import { decodeText, detectEncoding, joined } from './encoding.js';
import { parseTree } from './tree.js';
import { broken, checkPath, readZipDirectory, type ZipDirectory, type ZipEntry } from './zipdirectory.js';

/** A compressed score: the whole archive and which entry is the score. */
export interface Archive {
  readonly bytes: Uint8Array;
  readonly directory: ZipDirectory;
  readonly root: ZipEntry;
}

const CONTAINER = 'META-INF/container.xml';
/** Entries smaller than this may compress as well as they like. */
const RATIO_FROM = 1 << 20;
/** Compressed bytes inflated at a time; deflate grows at most 1032-fold. */
const STEP = 1 << 14;

/** True for the signatures of a ZIP archive, also of an empty one. */
export function isArchive(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && (bytes[2] === 3 || bytes[2] === 5 || bytes[2] === 7);
}

/**
 * Finds the score in an .mxl archive (MusicXML 4.0, "Compressed .MXL files": the first rootfile of the container).
 * @throws HandlineError ARCHIVE, UNSAFE, LIMIT
 */
export function openArchive(
  bytes: Uint8Array,
  limits: Limits,
  place: Place,
): { archive: Archive; content: Uint8Array } {
  const directory = readZipDirectory(bytes, place);
  const container = directory.entries.find((entry) => entry.name === CONTAINER);
  if (container === undefined) {
    throw broken(`is an archive without ${CONTAINER}; export the score as .mxl or .musicxml`, place);
  }
  const path = rootPath(inflateEntry(bytes, container, limits, place), limits, place);
  checkPath(path, place);
  const root = directory.entries.find((entry) => entry.name === path);
  if (root === undefined) throw broken(`names the score "${path}" but does not hold it`, place);
  return { archive: { bytes, directory, root }, content: inflateEntry(bytes, root, limits, place) };
}

function rootPath(content: Uint8Array, limits: Limits, place: Place): string {
  const text = decodeText(content, detectEncoding(content, place), place);
  const file = place.file === undefined ? CONTAINER : `${place.file}/${CONTAINER}`;
  const rootfile = parseTree(text, limits, file).child('rootfiles')?.child('rootfile');
  const path = rootfile?.attribute('full-path');
  if (path === undefined) throw broken(`has a ${CONTAINER} that names no score`, place);
  return path;
}

function inflateEntry(bytes: Uint8Array, entry: ZipEntry, limits: Limits, place: Place): Uint8Array {
  const { compressedSize, size, name, method } = entry;
  const most = Math.min(limits.maxBytes, Math.max(RATIO_FROM, compressedSize * limits.maxRatio));
  if (size > most) {
    const message = `the archive entry "${name}" inflates beyond ${most} bytes (limits.maxBytes, limits.maxRatio)`;
    throw new HandlineError('LIMIT', message, place);
  }
  const data = bytes.subarray(entry.data, entry.data + compressedSize);
  let content = data;
  if (method === 8) content = inflate(data, entry, place);
  else if (method !== 0)
    throw broken(`the archive entry "${name}" is compressed by method ${method}; use deflate`, place);
  if (content.length !== size || crc32(content) !== entry.crc) {
    throw broken(`the archive entry "${name}" is damaged; compress it again`, place);
  }
  return content;
}

/** The stated size is within the limits by now, but not trusted: what comes out is counted as well. */
function inflate(data: Uint8Array, { name, size }: ZipEntry, place: Place): Uint8Array {
  const pieces: Uint8Array[] = [];
  let total = 0;
  const stream = new Inflate((piece) => {
    total += piece.length;
    pieces.push(piece);
  });
  for (let at = 0; at < data.length; at += STEP) {
    try {
      stream.push(data.subarray(at, at + STEP), at + STEP >= data.length);
    } catch (cause) {
      throw new HandlineError('ARCHIVE', `the archive entry "${name}" is damaged; compress it again`, place, {
        cause,
      });
    }
    if (total > size)
      throw broken(`the archive entry "${name}" is larger than it states; it is refused`, place);
  }
  return joined(pieces);
}

/**
 * The archive with new content for the score. All other bytes are the archive's own: entries, order, dates, extra
 * fields, comments; only the score's data, sizes and checksum and the offsets behind it change.
 */
export function replaceRoot({ bytes, directory, root }: Archive, content: Uint8Array): Uint8Array {
  const data = root.method === 8 ? deflateSync(content, { level: 9 }) : content;
  const next = directory.entries.reduce(
    (least, entry) => (entry.local > root.local ? Math.min(least, entry.local) : least),
    directory.start,
  );
  const header = bytes.slice(root.local, root.data);
  describeData(header, 6, 14, content, data);
  const growth = header.length + data.length - (next - root.local);
  const records = bytes.slice(directory.start, directory.end);
  const view = new DataView(records.buffer);
  for (const entry of directory.entries) {
    const at = entry.record - directory.start;
    if (entry.local > root.local) view.setUint32(at + 42, entry.local + growth, true);
    if (entry === root) describeData(records.subarray(at), 8, 16, content, data);
  }
  const tail = bytes.slice(directory.tail);
  new DataView(tail.buffer).setUint32(16, directory.start + growth, true);
  return joined([
    bytes.subarray(0, root.local),
    header,
    data,
    bytes.subarray(next, directory.start),
    records,
    bytes.subarray(directory.end, directory.tail),
    tail,
  ]);
}

/** Writes checksum and sizes at `at`; the flag that they follow the data instead (bit 3, in `flags`) is cleared. */
function describeData(
  header: Uint8Array,
  flags: number,
  at: number,
  content: Uint8Array,
  data: Uint8Array,
): void {
  const view = new DataView(header.buffer, header.byteOffset, header.byteLength);
  view.setUint16(flags, view.getUint16(flags, true) & ~8, true);
  view.setUint32(at, crc32(content), true);
  view.setUint32(at + 4, data.length, true);
  view.setUint32(at + 8, content.length, true);
}

const CRC_TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** CRC-32 as ZIP uses it (ISO 3309); fflate has one but does not export it. */
function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (let i = 0; i < bytes.length; i++) {
    crc = (CRC_TABLE[(crc ^ (bytes[i] as number)) & 0xff] as number) ^ (crc >>> 8);
  }
  return ~crc >>> 0;
}
