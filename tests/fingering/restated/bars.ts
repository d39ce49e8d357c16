import type { SliceView } from '#core/fingering/view/view.js';

/** mm equivalents that a slice pays for fingers unlike those in other bars of the same notes; bars of three slices or more. */
export const BAR = { price: 12, slices: 3 };

/** Seconds up to which notes follow fast, and up to which at a moderate pace. */
const [FAST, MODERATE] = [0.2, 0.45];

/** First and last slice of the bar around a slice. */
export function barAround(views: readonly SliceView[], at: number): readonly [number, number] {
  const bar = views.flatMap((view, nth) => (view.slice.measure === views[at]!.slice.measure ? [nth] : []));
  return [bar[0]!, bar.at(-1)!];
}

/** The notes of a bar in words; nothing where it has too few. */
export function barInWords(views: readonly SliceView[], [first, last]: readonly [number, number]) {
  const bar = views.slice(first, last + 1);
  if (bar.length < BAR.slices) return undefined;
  return bar
    .map(({ keys, struck, seconds }, nth) => {
      const chord = keys.map((key, own) => `${struck[own] ? 'strike' : 'hold'} ${key}`).join(' and ');
      const pace = seconds <= FAST + 1e-9 ? 'fast' : seconds <= MODERATE + 1e-9 ? 'moderate' : 'slow';
      return nth === 0 ? chord : `${pace} ${chord}`;
    })
    .join(', ');
}
