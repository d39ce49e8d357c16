import type { Report } from '@handline/core';

/** By measure, counted from 0: all that is drawn of it. */
export function picturesOf({ lines }: Report): ReadonlyMap<number, string> {
  const pictures = new Map<number, string>();
  lines.forEach(({ slices }, nth) => {
    for (const { measureIndex, fingers, cue, depth, arm, crossing } of slices) {
      const own = `${nth} ${fingers} ${cue ?? ''} ${depth} ${arm} ${crossing ?? ''}`;
      pictures.set(measureIndex, `${pictures.get(measureIndex) ?? ''}|${own}`);
    }
  });
  return pictures;
}

/** Whether some measures look otherwise. */
export function differ(
  before: ReadonlyMap<number, string>,
  now: ReadonlyMap<number, string>,
): (first: number, last: number) => boolean {
  return (first, last) => {
    for (let at = first; at <= last; at++) if (before.get(at) !== now.get(at)) return true;
    return false;
  };
}
