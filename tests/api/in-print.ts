import type { Report } from '#core/index.js';

/** How many digits of ours a report means: the heads of a unison on one staff share one. */
export function digitsInPrint({ lines }: Report): number {
  const ours = lines.flatMap(({ part, hand, slices }) =>
    slices.flatMap(({ index, notes }) =>
      notes
        .filter(({ digit }) => digit === 'ours')
        .map(({ key, staff }) => `${part} ${hand} ${index} ${key} ${staff}`),
    ),
  );
  return new Set(ours).size;
}
