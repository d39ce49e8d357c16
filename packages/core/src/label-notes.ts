import type { Edit } from './musicxml/marks/edit.js';
import { applyEdits } from './musicxml/marks/edits.js';
import { readScore } from './musicxml/read/score.js';
import type { XmlElement } from './musicxml/xml/tree.js';
import { checkReading, inputOf } from './options/allowed.js';
import type { Input, LineOptions } from './options/options.js';
import { openAsPrinted } from './pipeline/open.js';
import { settingsOf } from './pipeline/settings.js';

/** What `labelNotes` gives. */
export interface LabelledScore {
  /** MusicXML without an XML declaration, because a string has no encoding. */
  readonly text: string;
  /** The title that the score states, if any. */
  readonly title?: string;
  /** Printed numbers of the measures of each part, by `Line.part`, in the order of `Slice.measure`. */
  readonly measures: readonly (readonly string[])[];
  /** Name of each part, by `Line.part`, as the score writes it; empty where it writes none. */
  readonly parts: readonly string[];
}

/**
 * A copy of a score for an engraver, in which every note that a `Line` can speak of has the id `note-PART-NOTE`:
 * `Line.part` and an index of `SliceKey.notes`. So what is drawn can be found by slice and key. Marks of ours stay; ids
 * that the notes had are replaced.
 *
 * @param input MusicXML text, or the bytes of a MusicXML or .mxl file
 * @throws HandlineError where the input is not a score or exceeds a limit, or an option is bad
 */
export function labelNotes(input: Input, options: Pick<LineOptions, 'file' | 'limits'> = {}): LabelledScore {
  const given = inputOf(input);
  checkReading(options);
  const settings = settingsOf(options);
  const { text, root } = openAsPrinted(given, settings.limits, settings.file);
  const { score, elements } = readScore(root, text, settings);
  const edits = elements.flatMap((notes, part) =>
    notes.map((element, note) => idEdit(text, element, `note-${part}-${note}`)),
  );
  const title = root.child('work')?.textOf('work-title')?.trim() || root.textOf('movement-title')?.trim();
  return {
    ...(title && { title }),
    text: applyEdits(text, edits).replace(/^\ufeff?(?:<\?xml\b[^>]*\?>)?\s*/, ''),
    measures: score.parts.map(({ measures }) => measures.map(({ number }) => number)),
    parts: score.parts.map(({ name }) => name.replaceAll(/\s+/g, ' ').trim()),
  };
}

/** Sets the id in the opening tag. */
function idEdit(text: string, element: XmlElement, id: string): Edit {
  const { start, end } = element.span;
  const [tag] = /^<(?:"[^"]*"|'[^']*'|[^'">])*>/.exec(text.slice(start, end))!;
  const own = /\sid\s*=\s*(?:"[^"]*"|'[^']*')/.exec(tag);
  if (own) {
    const at = start + own.index;
    return { start: at, end: at + own[0].length, text: ` id="${id}"` };
  }
  const behindName = start + /^<[^\s/>]+/.exec(tag)![0].length;
  return { start: behindName, end: behindName, text: ` id="${id}"` };
}
