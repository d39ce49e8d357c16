import { type CueMeaning, cueMeanings, type Language } from '@handline/core';

/** Dashes behind a cue, as `cueMeanings` names them. */
export const DASHES = '– –';

/** What the cues mean that occur among some texts in print, each with those of its texts that do. */
export function occurringCues(
  printed: readonly string[],
  language: Language,
  wording?: Readonly<Record<string, string>>,
): CueMeaning[] {
  const cues = new Set(printed.flatMap((text) => text.split(/,\s+|\n/)));
  return cueMeanings(language, wording)
    .map(({ texts, meaning }) => ({ texts: texts.filter((text) => cues.has(text)), meaning }))
    .filter(({ texts }) => texts.length > 0);
}
