import type { Report } from '@handline/core';
import { RIBBON_DEPTHS } from '../handout/systems.js';

/** Stands for what all measures share: the centimetres of depth that the ribbons are drawn to. */
const ALL = -1;

/** By measure, counted from 0: all that is drawn of it. */
export function picturesOf({ lines }: Report): ReadonlyMap<number, string> {
  const pictures = new Map<number, string>();
  let [least, most] = [0, 0];
  lines.forEach(({ slices }, nth) => {
    for (const { measureIndex, fingers, cue, depth, arm, crossing } of slices) {
      least = Math.min(least, Math.floor((depth - RIBBON_DEPTHS[0]) / 10));
      most = Math.max(most, Math.ceil((depth - RIBBON_DEPTHS[1]) / 10));
      const own = `${nth} ${fingers} ${cue ?? ''} ${depth} ${arm} ${crossing ?? ''}`;
      pictures.set(measureIndex, `${pictures.get(measureIndex) ?? ''}|${own}`);
    }
  });
  pictures.set(ALL, `${least} ${most}`);
  return pictures;
}

/** Whether some measures look otherwise. */
export function differ(
  before: ReadonlyMap<number, string>,
  now: ReadonlyMap<number, string>,
): (first: number, last: number) => boolean {
  if (before.get(ALL) !== now.get(ALL)) return () => true;
  return (first, last) => {
    for (let at = first; at <= last; at++) if (before.get(at) !== now.get(at)) return true;
    return false;
  };
}
