import { escapeHtml } from '../escape.js';
import { DASHES, occurringCues } from './occurring-cues.js';
import { isWithin, type Passage } from './passage.js';
import type { Drawing } from './systems.js';
import { fill } from './words/words.js';

/** What is drawn on the page: the systems with their ribbons, and the keyboard views. */
export interface DrawnParts {
  readonly music: string;
  readonly views: string;
}

/** As verovio draws dashes behind words. */
const DASHED = /class="dir[^"]*">(?:(?!<g )[\s\S])*?<\/text>\s*<rect/;

/** The cues and signs that occur on the page, and no others. */
export function legendItems(
  passages: readonly Passage[],
  drawn: DrawnParts,
  { words, language }: Drawing,
  wording?: Readonly<Record<string, string>>,
): string[] {
  const cues = passages.flatMap((passage) => passage.cues);
  if (DASHED.test(drawn.music)) cues.push(DASHES);
  const meanings = occurringCues(cues, language, wording).map(({ texts, meaning }) =>
    item(escapeHtml(texts.join(', ')), meaning),
  );
  const ribbons = pictures(drawn.music, 'depth');
  const ways = pictures(drawn.music, 'carry');
  const keyboards = pictures(drawn.views, 'keyboard');
  const under = crossingOf(passages, 'thumb-passing');
  const over = crossingOf(passages, 'finger-over');
  const signs: [sign: string, meaning: string, occurs: boolean][] = [
    ['▲', words.signIn, has(ribbons, 'in')],
    ['▼', words.signOut, has(ribbons, 'out')],
    ['●', words.signStays, has(ribbons, 'stays')],
    [`${under?.from}–1`, fill(words.signUnder, { finger: under?.from ?? '' }), under !== undefined],
    [`1–${over?.to}`, fill(words.signOver, { finger: over?.to ?? '' }), over !== undefined],
    ['░', words.signBlack, has(ribbons, 'black-keys')],
    ['┄', words.signLifted, has(ribbons, 'lifted')],
    ['○', words.signCarry, has(ways, 'key')],
    [ring(''), words.viewPlays, has(keyboards, 'strikes')],
    [ring('1 0.8'), words.viewHolds, has(keyboards, 'holds')],
    [ring('0.2 0.9'), words.viewElsewhere, has(keyboards, 'elsewhere')],
    ['━', words.viewDepth, keyboards !== ''],
    ['↕', words.viewMove, has(keyboards, 'in') || has(keyboards, 'out')],
    ['⇢', words.viewWay, has(keyboards, 'thumb-way')],
    ['∩', words.viewArm, has(keyboards, 'arm')],
  ];
  const occurring = signs.filter(([, , occurs]) => occurs);
  return [...meanings, ...occurring.map(([sign, meaning]) => item(sign, meaning))];
}

/** Our own pictures of a kind, without the music. */
function pictures(html: string, kind: string): string {
  return html
    .split('<svg ')
    .filter((picture) => picture.includes(` class="handline-picture ${kind}"`))
    .join('');
}

function has(markup: string, name: string): boolean {
  return markup.includes(` class="${name}"`);
}

type Kind = NonNullable<Passage['lines'][number]['plan']['slices'][number]['crossing']>['kind'];

/** The first crossing of a kind, as the example. */
function crossingOf(passages: readonly Passage[], kind: Kind) {
  for (const { lines, range } of passages) {
    for (const { line, plan } of lines) {
      for (const { index, measure } of line.slices) {
        const { crossing } = plan.slices[index]!;
        if (crossing?.kind === kind && isWithin(measure, range)) return crossing;
      }
    }
  }
  return undefined;
}

function ring(dashes: string): string {
  const dashed = dashes && ` stroke-dasharray="${dashes}"`;
  return `<svg class="sign" width="4mm" height="4mm" viewBox="0 0 4 4" aria-hidden="true"><circle cx="2" cy="2" r="1.6" fill="none" stroke="currentColor" stroke-width="0.5"${dashed}/></svg>`;
}

/** @param sign markup */
function item(sign: string, meaning: string): string {
  return `<li><b>${sign}</b> ${escapeHtml(meaning)}</li>`;
}
