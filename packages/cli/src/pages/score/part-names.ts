import type { PlannedLine } from '@handline/core';

/** One hand, with the name of its part where a page shows the same hand of several. */
export type Named<L extends Pick<PlannedLine, 'line' | 'partId'>> = L & { readonly partName?: string };

/**
 * Names the parts, as the score does, where one hand occurs in several: two pianos, four hands at one. Parts without a name
 * have their id, and those of one name are numbered from the top.
 *
 * @param names of all parts of the score, by `Line.part`
 */
export function withPartNames<L extends Pick<PlannedLine, 'line' | 'partId'>>(
  lines: readonly L[],
  names: readonly string[],
): Named<L>[] {
  const hands = new Set(lines.map(({ line }) => line.hand));
  if (lines.length <= hands.size) return [...lines];
  const nameOf = ({ line, partId }: L) => names[line.part] || partId;
  return lines.map((own) => {
    const alike = lines
      .filter(({ line }) => line.hand === own.line.hand)
      .filter((other) => nameOf(other) === nameOf(own));
    const number = alike.length === 1 ? '' : ` ${alike.indexOf(own) + 1}`;
    return { ...own, partName: `${nameOf(own)}${number}` };
  });
}
