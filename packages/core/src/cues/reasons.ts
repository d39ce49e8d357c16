import { spellingFor } from '../keyboard/key-names.js';
import type { DepthReason } from '../motion/reason.js';
import { checkLanguage, checkReason } from '../options/allowed.js';
import type { Language } from '../options/options.js';
import type { Finger } from '../score/model.js';
import type { ReasonWords } from './keys.js';
import { LANGUAGES } from './wording.js';

/** Why the forearm moves, in words: `2 comes out: A lies between two black keys`. */
export function reasonText(reason: DepthReason, language: Language = 'en'): string {
  checkReason(reason);
  checkLanguage(language);
  const { reasons } = LANGUAGES[language];
  const { direction, finger, coming, cause } = reason;
  const mover = finger === undefined ? reasons.arm : fingerName(finger, reasons);
  if (cause === undefined) return fill(reasons.evenly[direction], { mover });
  const why = fill(reasons.causes[cause], { key: reasonKey(reason, reasons) });
  if (coming === undefined) return fill(reasons.own[direction], { mover, why });
  return fill(reasons.ready[direction], { mover, coming: fingerName(coming, reasons), why });
}

function fingerName(finger: Finger, { thumb }: ReasonWords): string {
  return finger === 1 ? thumb : `${finger}`;
}

function reasonKey({ key, spelling }: DepthReason, { noteName }: ReasonWords): string {
  const { step, alter } = spellingFor(key!, spelling);
  return noteName(step, alter);
}

function fill(text: string, parts: Readonly<Record<string, string>>): string {
  return text.replaceAll(/\{(\w+)\}/g, (_, name: string) => parts[name]!);
}
