import { DEFAULT_LIMITS } from '../../packages/core/src/musicxml/limits.js';
import { parseTree, type XmlElement } from '../../packages/core/src/musicxml/tree.js';
import type { MarkableScore } from '../../packages/core/src/musicxml/write.js';
import { localName } from '../../packages/core/src/musicxml/writelayout.js';

/** A text as a MarkableScore with just what the writer looks at. */
export function markable(text: string): MarkableScore {
  const root = parseTree(text, DEFAULT_LIMITS);
  const byPart = new Map<string, XmlElement[]>();
  const visit = (element: XmlElement, part: string) => {
    const name = localName(element);
    const here = name === 'part' ? (element.attribute('id') ?? '') : part;
    if (name === 'part' && !byPart.has(here)) byPart.set(here, []);
    if (name === 'note') {
      const kinds = element.children.map(localName);
      if (kinds.includes('pitch') && !kinds.includes('cue')) byPart.get(here)?.push(element);
    } else for (const child of element.children) visit(child, here);
  };
  visit(root, '');
  const elements = [...byPart.values()];
  const parts = elements.map((notes) => ({
    staves: text.includes('staves>2<') ? 2 : 1,
    notes: notes.map(() => ({ digits: [] })),
  }));
  const score = { version: root.attribute('version') ?? '1.0', parts } as unknown as MarkableScore['score'];
  return { root, score, elements };
}
