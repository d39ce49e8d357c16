import { type CueMeaning, cueMeanings } from '@handline/core';
import { escapeHtml } from '../escape.js';
import { isWithin, type Passage } from './passage.js';
import type { Drawing } from './systems.js';

/** Change of depth in mm that the ribbon marks, as `depthRibbon` says. */
const MARKED_MOVE = 5;

/** The cues and signs that occur on the page, and no others. */
export function legendItems(
  passages: readonly Passage[],
  { words, language, carry }: Drawing,
  wording?: Readonly<Record<string, string>>,
): string[] {
  const cues = new Set(passages.flatMap((passage) => passage.cues.flatMap((text) => text.split(/,\s+|\n/))));
  const printed = (texts: readonly string[]) => texts.filter((text) => cues.has(text));
  const meanings = cueMeanings(language, wording)
    .filter(({ texts }) => printed(texts).length > 0)
    .map(({ texts, meaning }: CueMeaning) => item(printed(texts).join(', '), meaning));
  const signs: [string, string, (motion: Motion) => boolean][] = [
    ['▲', words.signIn, ({ depthChange }) => depthChange >= MARKED_MOVE],
    ['▼', words.signOut, ({ depthChange }) => depthChange <= -MARKED_MOVE],
    ['●', words.signStays, ({ depthChange }) => Math.abs(depthChange) < MARKED_MOVE],
    ['3–1', words.signUnder, ({ crossing }) => crossing?.kind === 'thumb-passing'],
    ['1–3', words.signOver, ({ crossing }) => crossing?.kind === 'finger-over'],
  ];
  const motions = passages.flatMap(motionsOf);
  const occurring = signs.filter(([, , occurs]) => motions.some(occurs));
  return [
    ...meanings,
    ...occurring.map(([sign, meaning]) => item(sign, meaning)),
    item('░', words.signBlack),
    item('┄', words.signLifted),
    ...(carry ? [item('○', words.signCarry)] : []),
  ];
}

type Motion = Passage['lines'][number]['plan']['slices'][number];

function motionsOf({ lines, range }: Passage): Motion[] {
  return lines.flatMap(({ line, plan }) =>
    line.slices.filter(({ measure }) => isWithin(measure, range)).map(({ index }) => plan.slices[index]!),
  );
}

function item(sign: string, meaning: string): string {
  return `<li><b>${escapeHtml(sign)}</b> ${escapeHtml(meaning)}</li>`;
}
