import type { SliceView } from '#core/fingering/view/view.js';

/** mm equivalents that a slice pays for fingers unlike those in other bars of the same notes; bars of three slices or more. */
const BAR = { price: 12, slices: 3 };

/** Seconds up to which notes follow fast, and up to which at a moderate pace. */
export const [FAST, MODERATE] = [0.2, 0.45];

/** First and last slice of the bar around a slice. */
function barAround(views: readonly SliceView[], at: number): readonly [number, number] {
  const bar = views.flatMap((view, nth) => (view.slice.measure === views[at]!.slice.measure ? [nth] : []));
  return [bar[0]!, bar.at(-1)!];
}

/** The notes of a bar in words; nothing where it has too few. */
function barInWords(views: readonly SliceView[], [first, last]: readonly [number, number]) {
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

/** The slices in the same place of bars that read the same, the earliest first. */
export function barsAlike(views: readonly SliceView[]) {
  return views.flatMap((_, at) => {
    const [from, to] = barAround(views, at);
    const words = barInWords(views, [from, to]);
    const slices = views.flatMap((__, other) => {
      const around = barAround(views, other);
      return other - around[0] === at - from && barInWords(views, around) === words ? [other] : [];
    });
    if (words === undefined || slices.length < 2 || slices[0] !== at) return [];
    return [{ slices, before: at - from, after: to - at, price: BAR.price }];
  });
}
