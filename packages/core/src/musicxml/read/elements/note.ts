import { rankOf } from '../../xml/element-order.js';
import type { XmlElement } from '../../xml/tree.js';
import { emptyNotations, type Notations, readNotations, readTied } from './notations.js';
import { decimal, integer } from './number.js';

/** One `<note>` as written, before time and key are known. */
export interface WrittenNote {
  pitch: XmlElement | undefined;
  rest: boolean;
  cue: boolean;
  /** Not printed: a playback helper that no digit can stand on. */
  hidden: boolean;
  grace: boolean;
  chord: boolean;
  /** In divisions; undefined where missing or no number. */
  duration: number | undefined;
  staff: number | undefined;
  voice: string;
  notations: Notations;
}

const NONE: Notations = Object.freeze(emptyNotations());

/** @param children those of the note */
export function readNote(note: XmlElement, children: readonly XmlElement[]): WrittenNote {
  const written: WrittenNote = {
    pitch: undefined,
    rest: false,
    cue: false,
    hidden: note.attribute('print-object') === 'no',
    grace: false,
    chord: false,
    duration: undefined,
    staff: undefined,
    voice: '1',
    notations: NONE,
  };
  for (const child of children) {
    switch (child.name) {
      case 'pitch':
        written.pitch = child;
        break;
      case 'rest':
        written.rest = true;
        break;
      case 'cue':
        written.cue = true;
        break;
      case 'grace':
        written.grace = true;
        break;
      case 'chord':
        written.chord = true;
        break;
      case 'duration':
        // Of several, which MusicXML does not allow, the first that can be used.
        if (!written.duration || written.duration < 0) written.duration = decimal(child.text);
        break;
      case 'staff':
        written.staff = integer(child.text);
        break;
      case 'voice':
        written.voice = child.text.trim();
        break;
      case 'tie':
        readTied(child.attribute('type'), ownNotations(written));
        break;
      case 'notations':
        readNotations(child, ownNotations(written));
        break;
    }
  }
  return written;
}

/** Most notes have no notations; they share one empty set. */
function ownNotations(written: WrittenNote): Notations {
  if (written.notations === NONE) written.notations = emptyNotations();
  return written.notations;
}

/** False where a child of a `<note>` stands before one that it must follow, as a misplaced `<tie>` does. */
export function isInOrder(children: readonly XmlElement[]): boolean {
  let last = 0;
  for (const { name } of children) {
    const rank = rankOf(name);
    if (rank < last) return false;
    // A stranger's element, whose rank is NaN, may stand anywhere.
    if (rank > last) last = rank;
  }
  return true;
}
