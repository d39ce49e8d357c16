import { isKeyboard } from '../../../score/instrument.js';
import type { XmlElement } from '../../xml/tree.js';
import type { PartSource } from './part-source.js';

interface Group {
  readonly names: readonly string[];
  readonly brace: boolean;
  readonly ids: string[];
}

/**
 * Marks two parts of one staff each that a brace joins into one keyboard instrument: some programs write a piano that way.
 * The group's names count as much as the parts' own.
 */
export function braceParts(parts: readonly PartSource[], list: XmlElement | undefined): PartSource[] {
  const result = [...parts];
  for (const { brace, ids, names } of groupsOf(list)) {
    const at = ids.map((id) => parts.findIndex((part) => part.id === id));
    const [upper = -1, lower = -1] = at;
    const [first, second] = [result[upper], result[lower]];
    if (!brace || at.length !== 2 || first === undefined || second === undefined || first === second)
      continue;
    if (first.staves !== 1 || second.staves !== 1 || first.partner || second.partner) continue;
    // Neither part may be another instrument, such as one of two violins, by its own names or sounds.
    if (![first, second].every((part) => isKeyboard({ ...part, staves: 2 }))) continue;
    const together = [first, second].map((part) => ({ ...part, names: [...names, ...part.names] }));
    if (!together.every((part) => isKeyboard(part))) continue;
    result[upper] = { ...(together[0] as PartSource), partner: { part: lower, lies: 'below' } };
    result[lower] = { ...(together[1] as PartSource), partner: { part: upper, lies: 'above' } };
  }
  return result;
}

/** Groups of parts in the part list, inner ones first. */
function groupsOf(list: XmlElement | undefined): Group[] {
  const open = new Map<string, Group>();
  const closed: Group[] = [];
  const close = (number: string) => {
    const group = open.get(number);
    if (group !== undefined) closed.push(group);
    open.delete(number);
  };
  for (const child of list?.children ?? []) {
    if (child.name === 'score-part') {
      for (const { ids } of open.values()) ids.push(child.attribute('id') ?? '');
    }
    if (child.name !== 'part-group') continue;
    const number = child.attribute('number') ?? '1';
    close(number);
    if (child.attribute('type') !== 'start') continue;
    const names = ['group-name', 'group-abbreviation'].map((name) => child.textOf(name) ?? '');
    const brace = child.textOf('group-symbol') === 'brace';
    open.set(number, { brace, names: names.filter((name) => name !== ''), ids: [] });
  }
  for (const number of [...open.keys()]) close(number);
  return closed;
}
