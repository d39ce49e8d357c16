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
const SCORE_FILE = /\.(?:musicxml|xml)$/i;
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
  const container = entryOf(directory, CONTAINER);
  if (container === undefined) {
    throw broken(
      `is not a MusicXML file but an archive without ${CONTAINER}; export the score as .mxl or .musicxml`,
      place,
    );
  }
  const paths = rootPaths(inflateEntry(bytes, container, limits, place), limits, place);
  for (const name of paths.flatMap(spellings)) checkPath(name, place);
  const root = paths.flatMap((path) => spellings(path).flatMap((name) => entryOf(directory, name) ?? []))[0];
  if (root === undefined)
    throw broken(`names the score ${JSON.stringify(paths[0])} but does not contain it`, place);
  return { archive: { bytes, directory, root, limits }, content: inflateEntry(bytes, root, limits, place) };
}

/** Where the score may lie: what is said to be one before what may be one, else in the container's order. */
function rootPaths(content: Uint8Array, limits: Limits, place: Place): string[] {
  const text = decodeText(content, detectEncoding(content, place), place);
  const file = place.file === undefined ? CONTAINER : `${place.file}/${CONTAINER}`;
  const rootfiles = parseTree(text, limits, file).child('rootfiles')?.all('rootfile') ?? [];
  const named = rootfiles.filter((one) => pathOf(one) !== '');
  const paths = ['score', 'unknown']
    .flatMap((kind) => named.filter((one) => kindOf(one) === kind))
    .map(pathOf);
  if (paths.length > 0) return paths;
  const others = named.map((one) => JSON.stringify(pathOf(one).slice(0, 60))).slice(0, 1);
  throw broken([`has a ${CONTAINER} that names no score`, ...others].join(', but '), place);
}

function pathOf(rootfile: XmlElement): string {
  return rootfile.attribute('full-path') ?? '';
}

/** What the container says that a file is: it may be something else than a score, such as a picture of it. */
function kindOf(rootfile: XmlElement): 'score' | 'unknown' | 'other' {
  const type = rootfile.attribute('media-type');
  if (type !== undefined) return /xml/i.test(type) ? 'score' : 'other';
  if (OTHER_FILE.test(pathOf(rootfile))) return 'other';
  return SCORE_FILE.test(pathOf(rootfile)) ? 'score' : 'unknown';
}

/** The entry of a name, or else one that some programs write for it: from the archive's own folder, or with backslashes. */
function entryOf({ entries }: ZipDirectory, name: string): ZipEntry | undefined {
  const plain = plainName(name);
  return entries.find((one) => one.name === name) ?? entries.find((one) => plainName(one.name) === plain);
}

function plainName(name: string): string {
  return name.replaceAll('\\', '/').replace(/^(?:\.\/)+/, '');
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
