import { deflateSync } from 'fflate';
import { joined } from '../bytes/encoding.js';
import { crc32 } from './crc32.js';
import type { ZipDirectory, ZipEntry } from './zip-directory.js';

/** A whole archive and its directory. */
export interface Zip {
  readonly bytes: Uint8Array;
  readonly directory: ZipDirectory;
}

/** What becomes of one entry: its local header with the data, and its record in the central directory. */
export interface Change {
  readonly entry: ZipEntry;
  /** Empty where the entry is taken out. */
  readonly local: Uint8Array;
  readonly record: Uint8Array;
}

/** Checksum and sizes: 12 bytes at these offsets; the flags that tell whether they follow the data at those. */
const LOCAL_SIZES = 14;
const LOCAL_FLAGS = 6;
const RECORD_SIZES = 16;
const RECORD_FLAGS = 8;
const RECORD_LOCAL = 42;
const RECORD_HEADER = 46;

/** From an entry's local header to the start of what follows: header, data, a descriptor after the data. */
function localRange({ directory }: Zip, { local }: ZipEntry): { start: number; end: number } {
  const end = directory.entries.reduce(
    (least, other) => (other.local > local ? Math.min(least, other.local) : least),
    directory.start,
  );
  return { start: local, end };
}

export function localOf(zip: Zip, entry: ZipEntry): Uint8Array {
  const { start, end } = localRange(zip, entry);
  return zip.bytes.slice(start, end);
}

export function recordOf({ bytes }: Zip, { record }: ZipEntry): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset + record, RECORD_HEADER);
  const lengths = [28, 30, 32].map((at) => view.getUint16(at, true));
  return bytes.slice(record, record + RECORD_HEADER + lengths.reduce((sum, length) => sum + length, 0));
}

/** An entry with new content, by its own method; all else in its headers stays. */
export function withContent(zip: Zip, entry: ZipEntry, content: Uint8Array): Change {
  const data = entry.method === 8 ? deflateSync(content, { level: 9 }) : content;
  const header = zip.bytes.slice(entry.local, entry.data);
  const record = recordOf(zip, entry);
  const sizes = new DataView(new ArrayBuffer(12));
  [crc32(content), data.length, content.length].forEach((value, at) => {
    sizes.setUint32(4 * at, value, true);
  });
  header.set(new Uint8Array(sizes.buffer), LOCAL_SIZES);
  record.set(new Uint8Array(sizes.buffer), RECORD_SIZES);
  // Bit 3 says that sizes follow the data; they stand in the headers now.
  header[LOCAL_FLAGS] = (header[LOCAL_FLAGS] as number) & ~8;
  record[RECORD_FLAGS] = (record[RECORD_FLAGS] as number) & ~8;
  return { entry, local: joined([header, data]), record };
}

/**
 * The archive with some entries changed and perhaps one more at its end. All other bytes are the archive's own:
 * entries, order, dates, extra fields, comments; only offsets and counts follow the change.
 * @param changes to entries with different local headers
 * @param added its record states no offset yet
 */
export function rewriteZip(
  zip: Zip,
  changes: readonly Change[],
  added?: { readonly local: Uint8Array; readonly record: Uint8Array },
): Uint8Array {
  const { bytes, directory } = zip;
  const ranges = changes
    .map((change) => ({ ...change, ...localRange(zip, change.entry) }))
    .sort((a, b) => a.start - b.start);
  const body: Uint8Array[] = [];
  let at = 0;
  for (const { start, end, local } of ranges) {
    body.push(bytes.subarray(at, start), local);
    at = end;
  }
  body.push(bytes.subarray(at, directory.start), added?.local ?? new Uint8Array());
  const growthBefore = (offset: number) =>
    ranges.reduce(
      (sum, { start, end, local }) => sum + (start < offset ? local.length - (end - start) : 0),
      0,
    );

  const records = directory.entries.map((entry) => {
    const change = changes.find((one) => one.entry === entry);
    const record = change?.record.slice() ?? recordOf(zip, entry);
    return record.length === 0 ? record : located(record, entry.local + growthBefore(entry.local));
  });
  if (added !== undefined) {
    records.push(located(added.record.slice(), directory.start + growthBefore(directory.start)));
  }
  const central = joined(records);
  const tail = bytes.slice(directory.tail);
  const view = new DataView(tail.buffer);
  const more = records.filter(({ length }) => length > 0).length - directory.entries.length;
  for (const count of [8, 10]) view.setUint16(count, view.getUint16(count, true) + more, true);
  view.setUint32(12, central.length, true);
  const start = body.reduce((sum, { length }) => sum + length, 0);
  view.setUint32(16, start, true);
  return joined([...body, central, bytes.subarray(directory.end, directory.tail), tail]);
}

function located(record: Uint8Array, local: number): Uint8Array {
  new DataView(record.buffer, record.byteOffset).setUint32(RECORD_LOCAL, local, true);
  return record;
}
