import { Inflate } from 'fflate';
import type { Limits } from '../../options/options.js';
import { HandlineError, type Place } from '../../score/errors.js';
import { decodeText, detectEncoding, joined } from '../bytes/encoding.js';
import { parseTree, type XmlElement } from '../xml/tree.js';
import { crc32 } from './crc32.js';
import { broken, checkPath, readZipDirectory, type ZipDirectory, type ZipEntry } from './zip-directory.js';

/** A compressed score: the whole archive and which entry is the score. */
export interface Archive {
  readonly bytes: Uint8Array;
  readonly directory: ZipDirectory;
  readonly root: ZipEntry;
  /** Under which it was opened. */
  readonly limits: Limits;
}

const CONTAINER = 'META-INF/container.xml';
const OTHER_FILE = /\.(?:pdf|mid|midi|mp3|ogg|wav|png|jpe?g|svg|txt)$/i;
/** Smaller entries are not held to `maxRatio`. */
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
export function archiveOf(
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
  const names = spellings(path);
  for (const name of names) checkPath(name, place);
  const root = names.flatMap((name) => directory.entries.find((entry) => entry.name === name) ?? [])[0];
  if (root === undefined)
    throw broken(`names the score ${JSON.stringify(path)} but does not contain it`, place);
  return { archive: { bytes, directory, root, limits }, content: inflateEntry(bytes, root, limits, place) };
}

function rootPath(content: Uint8Array, limits: Limits, place: Place): string {
  const text = decodeText(content, detectEncoding(content, place), place);
  const file = place.file === undefined ? CONTAINER : `${place.file}/${CONTAINER}`;
  const rootfiles = parseTree(text, limits, file).child('rootfiles')?.all('rootfile') ?? [];
  const path = (rootfiles.find(mayBeScore) ?? rootfiles[0])?.attribute('full-path');
  if (path === undefined) throw broken(`has a ${CONTAINER} that names no score`, place);
  return path;
}

/** False where the container itself says that a file is something else, such as a picture of the score. */
function mayBeScore(rootfile: XmlElement): boolean {
  const type = rootfile.attribute('media-type');
  return type === undefined ? !OTHER_FILE.test(rootfile.attribute('full-path') ?? '') : /xml/i.test(type);
}

/** A path as it stands and as programs have meant it: from the archive's own folder, or percent-encoded as in a URL. */
function spellings(path: string): string[] {
  const plain = path.replace(/^(?:\.\/)+/, '');
  try {
    return [...new Set([path, plain, decodeURIComponent(plain)])];
  } catch {
    return [path, plain];
  }
}

/** @throws HandlineError ARCHIVE or LIMIT */
export function inflateEntry(bytes: Uint8Array, entry: ZipEntry, limits: Limits, place: Place): Uint8Array {
  const { compressedSize, size, name, method } = entry;
  const most = Math.min(limits.maxBytes, Math.max(RATIO_FROM, compressedSize * limits.maxRatio));
  if (size > most) {
    const message = `the archive entry ${JSON.stringify(name)} unpacks to more than ${most} bytes (limits.maxBytes, limits.maxRatio)`;
    throw new HandlineError('LIMIT', message, place);
  }
  const data = bytes.subarray(entry.data, entry.data + compressedSize);
  let content = data;
  if (method === 8) content = inflate(data, entry, place);
  else if (method !== 0)
    throw broken(
      `the archive entry ${JSON.stringify(name)} is compressed by method ${method}; use deflate`,
      place,
    );
  if (content.length !== size || crc32(content) !== entry.crc) {
    throw broken(`the archive entry ${JSON.stringify(name)} is damaged; compress it again`, place);
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
      throw new HandlineError(
        'ARCHIVE',
        `the archive entry ${JSON.stringify(name)} is damaged; compress it again`,
        place,
        {
          cause,
        },
      );
    }
    if (total > size)
      throw broken(
        `the archive entry ${JSON.stringify(name)} is larger than it states; it is refused`,
        place,
      );
  }
  return joined(pieces);
}
