import { MAX_ARCHIVE_ENTRIES } from '../../options/limits.js';
import { HandlineError } from '../../score/errors.js';
import { joined } from '../bytes/encoding.js';
import { type Archive, archiveOf, inflateEntry } from './container.js';
import { crc32 } from './crc32.js';
import type { ZipEntry } from './zip-directory.js';
import { localOf, recordOf, rewriteZip, withContent } from './zip-rewrite.js';

/**
 * Where a marked archive keeps its score as it was compressed before: deflate has many forms of one text, so that
 * only the original bytes bring the original archive back. MusicXML allows files of any kind in META-INF (MusicXML
 * 4.0, "Compressed .MXL files"); readers look for the rootfile alone. Stored, for it is compressed already.
 */
export const ORIGINAL_ENTRY = 'META-INF/handline-original';

/** Where somebody else has files of that name, ours is the first that is free with a number. */
const NAMES = [ORIGINAL_ENTRY, ...[2, 3, 4].map((number) => `${ORIGINAL_ENTRY}-${number}`)];
/** In the record from the version needed to the sizes: all that depends on the compression. It comes first. */
const FACTS = { from: 6, to: 28 };
/** Then the local header and data without this, lest programs that repair archives take them for an entry. */
const SIGNATURE = Uint8Array.of(0x50, 0x4b, 3, 4);
/** Offset of the name in a local header without its signature; its length stands 4 bytes before. */
const NAME_IN_LOCAL = 26;
/** 1980-01-01, the zero of ZIP's dates: the same input gives the same bytes at any time. */
const DATE = 0x21;

/** The archive with a new score and, beside it, the score as it is compressed now. */
export function keepOriginal(archive: Archive, content: Uint8Array): Uint8Array {
  const { root, directory } = archive;
  const name = NAMES.find((one) => directory.entries.every((entry) => entry.name !== one));
  const full = directory.entries.length >= MAX_ARCHIVE_ENTRIES;
  if (full || name === undefined || originalEntryOf(archive) !== undefined) return repack(archive, content);
  const changes = [withContent(archive, root, content)];
  const facts = recordOf(archive, root).subarray(FACTS.from, FACTS.to);
  const local = localOf(archive, root).subarray(SIGNATURE.length);
  return rewriteZip(archive, changes, storedEntry(name, joined([facts, local])));
}

/** The archive with a new score; a score kept from before, which is out of date, goes. */
export function repack(archive: Archive, content: Uint8Array): Uint8Array {
  const changes = [withContent(archive, archive.root, content)];
  const original = originalEntryOf(archive);
  if (original !== undefined) changes.push(takenOut(original));
  return rewriteZip(archive, changes);
}

/**
 * The archive as it was before `keepOriginal`, where the score kept in it is exactly `content`; undefined where there
 * is none or another one, whoever has changed it since.
 */
export function restoreOriginal(archive: Archive, content: Uint8Array): Archive | undefined {
  const original = originalEntryOf(archive);
  if (original === undefined) return undefined;
  try {
    const kept = inflateEntry(archive.bytes, original, archive.limits, {});
    const record = recordOf(archive, archive.root);
    const length = FACTS.to - FACTS.from;
    record.set(kept.subarray(0, length), FACTS.from);
    const local = joined([SIGNATURE, kept.subarray(length)]);
    const bytes = rewriteZip(archive, [{ entry: archive.root, local, record }, takenOut(original)]);
    const restored = archiveOf(bytes, archive.limits, {});
    return equal(restored.content, content) ? restored.archive : undefined;
  } catch (error) {
    // Whatever somebody has made of the kept score, it is not the one that we need.
    if (error instanceof HandlineError || error instanceof RangeError) return undefined;
    throw error;
  }
}

function originalEntryOf(archive: Archive): ZipEntry | undefined {
  const { directory, root } = archive;
  return directory.entries.find(
    (entry) => NAMES.includes(entry.name) && entry.local !== root.local && isOurs(archive, entry),
  );
}

/** True for what has the form of ours: with the local header of an entry of the score's name in it. */
function isOurs({ bytes, root, limits }: Archive, entry: ZipEntry): boolean {
  const name = new TextEncoder().encode(root.name);
  const at = FACTS.to - FACTS.from + NAME_IN_LOCAL;
  let content: Uint8Array;
  try {
    content = inflateEntry(bytes, entry, limits, {});
  } catch (error) {
    if (error instanceof HandlineError) return false;
    throw error;
  }
  if (content.length < at + name.length) return false;
  const length = new DataView(content.buffer, content.byteOffset).getUint16(at - 4, true);
  return length === name.length && equal(content.subarray(at, at + length), name);
}

function takenOut(entry: ZipEntry) {
  return { entry, local: new Uint8Array(), record: new Uint8Array() };
}

function equal(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, at) => byte === b[at]);
}

/** Local header with data and central record (APPNOTE.TXT, 4.3.7 and 4.3.12) of a stored entry. */
function storedEntry(entry: string, data: Uint8Array): { local: Uint8Array; record: Uint8Array } {
  const name = new TextEncoder().encode(entry);
  const common = new DataView(new ArrayBuffer(26));
  common.setUint16(0, 10, true);
  common.setUint16(8, DATE, true);
  common.setUint32(10, crc32(data), true);
  common.setUint32(14, data.length, true);
  common.setUint32(18, data.length, true);
  common.setUint16(22, name.length, true);
  const fields = new Uint8Array(common.buffer);
  const local = joined([SIGNATURE, fields, name, data]);
  const madeBy = Uint8Array.of(10, 0);
  // Comment, disk, attributes and the offset, which is filled in later.
  const rest = new Uint8Array(14);
  return { local, record: joined([Uint8Array.of(0x50, 0x4b, 1, 2), madeBy, fields, rest, name]) };
}
