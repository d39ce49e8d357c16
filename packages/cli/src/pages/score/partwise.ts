import { tagsOf } from './tags.js';

/** A measure of a timewise score: its own tag, and what the parts have in it, by theirs. */
interface Measure {
  readonly tag: string;
  readonly parts: Map<string, string>;
}

/** A score whose measures lie within its parts, as engravers read it; a partwise one as it is. */
export function partwise(text: string): string {
  const [root] = tagsOf(text, ['score-timewise', 'score-partwise']);
  if (root?.name !== 'score-timewise') return text;
  const measures: Measure[] = [];
  let head: string | undefined;
  let part: { readonly tag: string; readonly from: number } | undefined;
  for (const { name, kind, start, end } of tagsOf(text, ['measure', 'part'])) {
    const tag = text.slice(start, end).replace(/\s*\/?>$/, '>');
    if (name === 'measure' && kind !== 'end') {
      head ??= text.slice(root.end, start);
      measures.push({ tag, parts: new Map() });
    } else if (name === 'part' && kind === 'start') part = { tag, from: end };
    else if (name === 'part' && kind === 'empty') measures.at(-1)?.parts.set(tag, '');
    else if (name === 'part' && part) measures.at(-1)?.parts.set(part.tag, text.slice(part.from, start));
  }
  const parts = new Set(measures.flatMap((own) => [...own.parts.keys()]));
  // A part has a place in every measure, also where it is silent.
  const body = [...parts].map((own) => {
    const all = measures.map(({ tag, parts: there }) => `${tag}${there.get(own) ?? ''}</measure>`);
    return `${own}${all.join('')}</part>`;
  });
  const opening = text.slice(root.start, root.end).replace('score-timewise', 'score-partwise');
  return `${opening}${head ?? ''}${body.join('')}</score-partwise>`;
}
