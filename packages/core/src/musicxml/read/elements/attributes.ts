import type { Clef } from '../../../score/model.js';
import type { XmlElement } from '../../xml/tree.js';
import { decimal, integer } from './number.js';
import { transpositionOf } from './pitch.js';

/** Time signature in quarter notes; `nominal` 0 where there is none. */
export interface Metre {
  readonly nominal: { readonly num: number; readonly den: number };
  readonly beat: { readonly num: number; readonly den: number };
  readonly unit: { readonly num: number; readonly den: number };
}

const NO_METRE: Metre = { nominal: { num: 0, den: 1 }, beat: { num: 1, den: 1 }, unit: { num: 1, den: 1 } };

/** A `<clef>`; an F clef that names no line is a bass clef, any other stands on the second line. */
export function clefOf(clef: XmlElement): Clef {
  const sign = clef.textOf('sign') ?? '';
  return { sign, line: integer(clef.textOf('line')) ?? (sign === 'F' ? 4 : 2) };
}

/** What `<attributes>` set for the notes that follow, in one part. */
export class PartAttributes {
  /** Divisions of a quarter note; undefined until the score says. */
  divisions: number | undefined;
  metre: Metre = NO_METRE;
  readonly firstClefs = new Map<number, Clef>();
  private readonly closedStaves = new Set<number>();
  private readonly ossiaStaves = new Set<number>();
  private readonly transpositions = new Map<number, number>();

  /** False where a number in the element cannot be used. */
  read(attributes: XmlElement): boolean {
    let good = true;
    for (const child of attributes.children) {
      const staff = integer(child.attribute('number'));
      if (child.name === 'divisions') {
        const value = decimal(child.text);
        if (value !== undefined && value > 0) this.divisions = value;
        else good = false;
      } else if (child.name === 'clef') {
        this.readClef(child, staff ?? 1);
      } else if (child.name === 'time') {
        if (staff === undefined || staff === 1) good = this.readTime(child) && good;
      } else if (child.name === 'transpose') {
        if (staff === undefined) this.transpositions.clear();
        this.transpositions.set(staff ?? 0, transpositionOf(child));
      } else if (child.name === 'staff-details') {
        const type = child.textOf('staff-type');
        if (type === 'ossia' || type === 'cue') this.ossiaStaves.add(staff ?? 1);
        else if (type !== undefined) this.ossiaStaves.delete(staff ?? 1);
      }
    }
    return good;
  }

  /** False on percussion, tablature, ossia and cue staves, whose notes the hands do not play. */
  isPlayed(staff: number): boolean {
    return !this.closedStaves.has(staff) && !this.ossiaStaves.has(staff);
  }

  transposition(staff: number): number {
    return this.transpositions.get(staff) ?? this.transpositions.get(0) ?? 0;
  }

  private readClef(clef: XmlElement, staff: number): void {
    const own = clefOf(clef);
    const { sign } = own;
    if (sign === 'percussion' || sign === 'TAB') this.closedStaves.add(staff);
    else this.closedStaves.delete(staff);
    if (!this.firstClefs.has(staff)) this.firstClefs.set(staff, own);
  }

  /** Several pairs of beats and beat type add up; `3+2` too. */
  private readTime(time: XmlElement): boolean {
    if (time.child('senza-misura') !== undefined) {
      this.metre = NO_METRE;
      return true;
    }
    let num = 0;
    let first: Pick<Metre, 'beat' | 'unit'> | undefined;
    const pairs: [number, number][] = [];
    let beats: string | undefined;
    for (const child of time.children) {
      if (child.name === 'beats') beats = child.text;
      if (child.name !== 'beat-type' || beats === undefined) continue;
      const count = beats.split('+').reduce((sum, piece) => sum + (integer(piece) ?? Number.NaN), 0);
      const type = integer(child.text) ?? 0;
      if (!(count > 0 && count <= 1024 && type > 0 && type <= 1024)) return false;
      pairs.push([count, type]);
      first ??= { beat: beatOf(beats, count, type), unit: { num: 4, den: type } };
    }
    if (first === undefined) return false;
    const den = pairs.reduce((product, [, type]) => Math.min(product * type, 1 << 20), 1);
    for (const [count, type] of pairs) num += (4 * count * den) / type;
    if (!Number.isInteger(num)) return false;
    this.metre = { nominal: { num, den }, ...first };
    return true;
  }
}

/** A dotted beat in compound time (6/8, 9/8, 12/16), else the beat type itself; common practice. */
function beatOf(beats: string, count: number, type: number): Metre['beat'] {
  const compound = !beats.includes('+') && count > 3 && count % 3 === 0 && type >= 8;
  return { num: compound ? 12 : 4, den: type };
}
