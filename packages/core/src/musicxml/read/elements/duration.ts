import type { XmlElement } from '../../xml/tree.js';
import { decimal } from './number.js';

/** Quarter notes of a `<type>`. */
const TYPES: Readonly<Record<string, number>> = {
  maxima: 32,
  long: 16,
  breve: 8,
  whole: 4,
  half: 2,
  quarter: 1,
  eighth: 1 / 2,
  '16th': 1 / 4,
  '32nd': 1 / 8,
  '64th': 1 / 16,
  '128th': 1 / 32,
  '256th': 1 / 64,
  '512th': 1 / 128,
  '1024th': 1 / 256,
};

/** Quarter notes of a note type name, or undefined. */
export function quartersOfType(name: string | undefined): number | undefined {
  return name !== undefined && Object.hasOwn(TYPES, name) ? TYPES[name] : undefined;
}

/** Quarter notes by `<type>`, `<dot>` and `<time-modification>`: what stands in where a note has no duration. */
export function writtenQuarters(note: XmlElement): number | undefined {
  const base = quartersOfType(note.textOf('type'));
  if (base === undefined) return undefined;
  const dots = Math.min(note.all('dot').length, 4);
  const modification = note.child('time-modification');
  const actual = decimal(modification?.textOf('actual-notes')) ?? 1;
  const normal = decimal(modification?.textOf('normal-notes')) ?? 1;
  const ratio = actual > 0 && normal > 0 && actual <= 1000 && normal <= 1000 ? normal / actual : 1;
  return base * (2 - 1 / 2 ** dots) * ratio;
}
