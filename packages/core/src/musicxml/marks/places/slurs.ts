import { compare, type Fraction } from '../../../numeric/fraction.js';
import type { Note } from '../../../score/model.js';
import type { XmlElement } from '../../xml/tree.js';

type Side = 'above' | 'below';

/** A slur of one staff, from onset to onset; its side is unknown where neither the file nor the stems tell it. */
interface Slur {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly side: Side | undefined;
}

/** Ids of notes at which a slur goes on that began before them, by the side on which it passes. */
export type Slurred = Readonly<Record<Side, ReadonlySet<number>>>;

const SIDES: Readonly<Record<string, Side>> = {
  above: 'above',
  over: 'above',
  below: 'below',
  under: 'below',
};

/**
 * @param notes of one part
 * @param elements their `<note>` elements, by id
 */
export function notesAtSlurs(notes: readonly Note[], elements: readonly XmlElement[]): Slurred {
  const slurred = { above: new Set<number>(), below: new Set<number>() };
  for (const [staff, slurs] of slursByStaff(notes, elements)) {
    const own = notes.filter((note) => note.staff === staff).sort((a, b) => compare(a.onset, b.onset));
    for (const side of ['above', 'below'] as const) {
      const here = slurs.filter((slur) => (slur.side ?? side) === side);
      for (const id of within(own, here)) slurred[side].add(id);
    }
  }
  return slurred;
}

/** @param notes by onset */
function within(notes: readonly Note[], slurs: readonly Slur[]): number[] {
  const ids: number[] = [];
  const ascending = [...slurs].sort((a, b) => compare(a.from, b.from));
  let next = 0;
  let until: Fraction | undefined;
  for (const { id, onset } of notes) {
    for (; next < ascending.length && compare(ascending[next]!.from, onset) < 0; next++) {
      const { to } = ascending[next]!;
      if (!until || compare(to, until) > 0) until = to;
    }
    if (until && compare(until, onset) > 0) ids.push(id);
  }
  return ids;
}

function slursByStaff(
  notes: readonly Note[],
  elements: readonly XmlElement[],
): ReadonlyMap<number, readonly Slur[]> {
  const slurs = new Map<number, Slur[]>();
  const open = new Map<string, { readonly note: Note; readonly element: XmlElement }>();
  for (const note of notes) {
    if (!note.slurStart && !note.slurStop) continue;
    for (const element of slursAt(elements[note.id]!)) {
      const number = `${note.staff} ${element.attribute('number') ?? '1'}`;
      const start = open.get(number);
      if (element.attribute('type') === 'start') open.set(number, { note, element });
      if (element.attribute('type') !== 'stop' || !start) continue;
      open.delete(number);
      const side = sideOf(start.element) ?? sideOfStems(start.note, note, notes, elements);
      const own = slurs.get(note.staff) ?? [];
      slurs.set(note.staff, own);
      own.push({ from: start.note.onset, to: note.onset, side });
    }
  }
  return slurs;
}

function slursAt(note: XmlElement): XmlElement[] {
  return note.all('notations').flatMap((notations) => notations.all('slur'));
}

function sideOf(slur: XmlElement): Side | undefined {
  return SIDES[slur.attribute('placement') ?? slur.attribute('orientation') ?? ''];
}

/**
 * Where engravers put a slur that is told no side (common practice): of several voices the higher has it above and the
 * others below; a single voice has it at its heads where all stems go up, and above where not all do.
 */
function sideOfStems(
  from: Note,
  to: Note,
  notes: readonly Note[],
  elements: readonly XmlElement[],
): Side | undefined {
  const stems = new Set<string | undefined>();
  const [own, others]: [number[], number[]] = [[], []];
  let first = from.id;
  while (notes[first - 1]?.measure === from.measure) first--;
  for (let id = first; (notes[id]?.measure ?? Number.POSITIVE_INFINITY) <= to.measure; id++) {
    const { staff, voice, key, onset } = notes[id]!;
    if (staff !== from.staff || compare(onset, from.onset) < 0 || compare(onset, to.onset) > 0) continue;
    (voice === from.voice ? own : others).push(key);
    if (voice === from.voice) stems.add(elements[id]!.textOf('stem'));
  }
  if (others.length > 0) return mean(own) > mean(others) ? 'above' : 'below';
  if (stems.has('down')) return 'above';
  return stems.has('up') ? 'below' : undefined;
}

function mean(keys: readonly number[]): number {
  let sum = 0;
  for (const key of keys) sum += key;
  return sum / keys.length;
}
