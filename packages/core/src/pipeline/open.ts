import { decode, encode, tooLong } from '../musicxml/bytes/decode.js';
import { isLonger, type Pieces } from '../musicxml/bytes/encoding.js';
import { clearMarks } from '../musicxml/marks/clear/clear.js';
import type { Edit } from '../musicxml/marks/edit.js';
import { editedPieces } from '../musicxml/marks/edits.js';
import { requireScore } from '../musicxml/read/parts/parts.js';
import { WellFormedness } from '../musicxml/xml/check/well-formedness.js';
import { parseTree, type XmlElement } from '../musicxml/xml/tree.js';
import type { Limits } from '../options/options.js';
import type { Warning } from '../score/errors.js';

/** A score without marks of ours, and the way back to the form in which it came. */
export interface Source {
  readonly text: string;
  readonly root: XmlElement;
  readonly warnings: readonly Warning[];
  /**
   * The score with edits that `clear` takes out again; to be called once. Warns where an archive's score cannot have its
   * original compression back.
   */
  readonly wrap: (edits: readonly Edit[]) => {
    readonly output: string | Uint8Array;
    readonly warnings: readonly Warning[];
  };
  /** The same with edits that are the user's own: an archive keeps nothing of the score before. */
  readonly rewrite: (edits: readonly Edit[]) => string | Uint8Array;
}

/**
 * A score as printed, our marks included.
 *
 * @throws HandlineError where the input is not a MusicXML score or exceeds a limit
 */
export function openAsPrinted(
  input: string | Uint8Array,
  limits: Limits,
  file?: string,
): Pick<Source, 'text' | 'root'> {
  const text = typeof input === 'string' ? textWithin(input, limits, file) : decode(input, limits, file).text;
  return { text, root: parseTree(text, limits, file) };
}

/** @throws HandlineError where the input is not a MusicXML score or exceeds a limit */
export function openSource(input: string | Uint8Array, limits: Limits, file?: string): Source {
  const decoded = typeof input === 'string' ? undefined : decode(input, limits, file);
  const text = typeof input === 'string' ? textWithin(input, limits, file) : decoded!.text;
  const cleared = withoutMarks(text, limits, file);
  const edited = (edits: readonly Edit[]): Pieces => {
    const pieces = editedPieces(cleared.text, edits);
    // What is marked can be cleared under the same limits.
    return edits.length === 0 && cleared.text === text ? pieces : withinLimit(pieces, limits, file);
  };
  return {
    text: cleared.text,
    get root() {
      cleared.root ??= parseTree(cleared.text, limits, file);
      return cleared.root;
    },
    warnings: cleared.warnings,
    wrap: (edits) => {
      const out = edited(edits);
      if (decoded === undefined) return { output: out.join(''), warnings: [] };
      const { bytes, repacked } = encode(decoded, out, cleared.text);
      return { output: bytes, warnings: repacked ? [repackedWarning(file)] : [] };
    },
    rewrite: (edits) => {
      const out = edited(edits).join('');
      return decoded === undefined ? out : encode(decoded, [out], out).bytes;
    },
  };
}

/** The tree is kept only where there was nothing to clear: two of them at a time would take twice the memory. */
function withoutMarks(
  text: string,
  limits: Limits,
  file?: string,
): { readonly text: string; readonly warnings: readonly Warning[]; root?: XmlElement } {
  const root = parseTree(text, limits, file);
  requireScore(root, file);
  const cleared = clearMarks(text, root, file);
  const { warnings } = cleared;
  if (cleared.text === text) return { text, warnings, root };
  // Somebody may have put anything into the instructions that keep digits.
  new WellFormedness(cleared.text, limits, file).check();
  return { text: cleared.text, warnings };
}

/** A text counts as the bytes that it has in UTF-8. */
function withinLimit(text: Pieces, limits: Limits, file?: string): Pieces {
  if (isLonger(text, limits.maxBytes)) throw tooLong(limits, file);
  return text;
}

function textWithin(text: string, limits: Limits, file?: string): string {
  withinLimit([text], limits, file);
  return text;
}

function repackedWarning(file: string | undefined): Warning {
  const message =
    'the archive has lost the original compression of its score; the score is compressed again, with the same text';
  return { code: 'REPACKED', message, place: file === undefined ? {} : { file } };
}
