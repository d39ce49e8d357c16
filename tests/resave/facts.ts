import { decode } from '#core/musicxml/bytes/decode.js';
import { digitsOf, wordsIn } from '#core/musicxml/marks/clear/match.js';
import { type Head, headsOf } from '#core/musicxml/marks/record/heads.js';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';

/** What a file says, whatever program has written it: everything by part, measure, tick and key, sorted. */
export interface Facts {
  /** Every pitched note with its duration, voice, staff and ties. */
  readonly notes: readonly string[];
  /** Every `<fingering>`. */
  readonly digits: readonly string[];
  /** Every words with their staff. */
  readonly words: readonly string[];
  /** Both ends of every dashes with their staff. */
  readonly dashes: readonly string[];
}

export function textOf(bytes: Uint8Array): string {
  return decode(bytes, DEFAULT_LIMITS).text;
}

function directionsOf(root: XmlElement): XmlElement[] {
  return root.children.flatMap((child) => (child.name === 'direction' ? [child] : directionsOf(child)));
}

export function factsOf(text: string): Facts {
  const root = parseTree(text, DEFAULT_LIMITS);
  const directions = directionsOf(root).filter(
    (direction) => wordsIn(direction).length > 0 || direction.within('dashes').length > 0,
  );
  const notes: string[] = [];
  const digits: string[] = [];
  const words: string[] = [];
  const dashes: string[] = [];
  headsOf(root, new Set(directions)).forEach(({ heads, moments }, part) => {
    for (const head of heads) {
      const place = `${part} ${head.measure}:${head.tick} ${head.key}`;
      notes.push(`${place} ${noteFacts(head)}`);
      for (const digit of digitsOf(head.element)) digits.push(`${place} ${digit.text.trim()}`);
    }
    for (const [direction, { measure, tick }] of moments) {
      for (const one of direction.within('dashes'))
        dashes.push(
          `${part} ${measure}:${tick} staff ${direction.textOf('staff') ?? '1'} ${one.attribute('type')}`,
        );
      const said = wordsIn(direction)
        .map((one) => one.text)
        .join('')
        .replaceAll(/\s+/g, ' ')
        .trim();
      if (said !== '')
        words.push(`${part} ${measure}:${tick} staff ${direction.textOf('staff') ?? '1'} ${said}`);
    }
  });
  return { notes: notes.sort(), digits: digits.sort(), words: words.sort(), dashes: dashes.sort() };
}

function noteFacts({ element, grace }: Head): string {
  const ties = element.all('tie').map((tie) => tie.attribute('type'));
  return [element.textOf('type'), element.textOf('voice'), element.textOf('staff'), grace, ...ties].join(' ');
}

/** How many of some facts are there more often than in others. */
export function surplus(facts: readonly string[], others: readonly string[]): string[] {
  const left = new Map<string, number>();
  for (const fact of others) left.set(fact, (left.get(fact) ?? 0) + 1);
  return facts.filter((fact) => {
    const count = left.get(fact) ?? 0;
    left.set(fact, count - 1);
    return count <= 0;
  });
}
