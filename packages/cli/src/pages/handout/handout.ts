import {
  type AnnotateOptions,
  beatText,
  type Drill,
  findingTexts,
  type Review,
  review,
} from '@handline/core';
import { CliError, Exit } from '../../exit.js';
import type { Result } from '../../outcome.js';
import type { Engraver } from '../engraver.js';
import { escapeHtml } from '../escape.js';
import { type DrawnParts, legendItems } from './legend.js';
import { type Passage, passageOf } from './passage.js';
import { STYLE } from './style.js';
import { contentsList, type Drawing, systemBlocks } from './systems.js';
import { type ViewPlace, viewBlocks } from './views.js';
import { fill, HANDOUT_WORDS, handText, measureText } from './words/words.js';

/** What a handout says besides the marks. */
export interface HandoutOptions {
  readonly title?: string;
  readonly student?: string;
  readonly date?: string;
  /** The teacher's own words; line breaks are kept. */
  readonly notes?: string;
  /** The printed and the easier fingering under each other. */
  readonly compare: boolean;
  /** Places of the keyboard views; without it the most demanding ones. */
  readonly views?: readonly ViewPlace[];
  /** Of Handline, for the last line. */
  readonly version: string;
}

/** Findings, and chords out of reach, that are told before the rest is only counted: what fits on the page. */
const MOST_TOLD = 8;

/**
 * A handout as one page of HTML that loads nothing.
 *
 * @throws HandlineError as `annotate`, CliError where the score cannot be engraved or holds nothing of what is asked for
 */
export function handoutOf(
  bytes: Uint8Array,
  marking: AnnotateOptions,
  options: HandoutOptions,
  engraver: Engraver,
): Result {
  const { language = 'en', layers } = marking;
  const drawing: Drawing = {
    language,
    words: HANDOUT_WORDS[language],
    carry: layers?.includes('carry') ?? false,
  };
  const judged = judge(bytes, marking);
  if (options.compare && judged.digits === 0)
    throw new CliError(Exit.refused, '--compare needs a fingering in print, and the score has none');
  const printed = passageOf(bytes, options.compare ? { ...marking, digits: 'none' } : marking, engraver);
  const easier = options.compare
    ? passageOf(bytes, { by: 'movement', ...marking, existing: 'replace' }, engraver, printed)
    : undefined;
  if (printed.lines.length === 0)
    throw new CliError(Exit.refused, 'has no notes for the hands that are asked for');
  // Digits that are replaced stand nowhere on the page.
  const isShown = judged.digits > 0 && (options.compare || marking.existing !== 'replace');
  const html = handoutPage(
    {
      printed,
      ...(easier && { easier }),
      ...(isShown && { judged }),
      caution: judged.caution,
      ...(marking.wording && { wording: marking.wording }),
    },
    options,
    drawing,
  );
  return { output: new TextEncoder().encode(html), warnings: printed.warnings };
}

function judge(bytes: Uint8Array, marking: AnnotateOptions): Review {
  const { file, parts, staff, span, limits, hands, measures, language } = marking;
  const given = { file, parts, staff, span, limits, hands, measures, language };
  return review(bytes, Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)));
}

/** What a page shows. */
export interface Shown {
  readonly printed: Passage;
  readonly easier?: Passage;
  /** Absent where no digits of the score are on the page. */
  readonly judged?: Review;
  /** Headings and their measures. */
  readonly contents?: Drill['contents'];
  readonly caution: string;
  readonly wording?: Readonly<Record<string, string>>;
}

/** The page as HTML. */
export function handoutPage(shown: Shown, options: HandoutOptions, drawing: Drawing): string {
  const { printed, easier, judged, contents = [] } = shown;
  const { words, language } = drawing;
  const title = options.title ?? printed.title ?? words.untitled;
  const passages = easier ? [printed, easier] : [printed];
  const drawn = {
    music: music(printed, easier, drawing),
    views: viewBlocks(easier ?? printed, drawing, options.views).join(''),
  };
  const sections = [
    contents.length > 1 ? section(words.contents, contentsList(printed, contents, drawing)) : '',
    section(words.music, drawn.music),
    drawn.views ? section(words.keyboard, `<div class="views">${drawn.views}</div>`) : '',
    outOfReach(printed, drawing),
    judged ? section(words.findings, findings(judged, printed, drawing)) : '',
    section(words.signs, signs(passages, drawn, drawing, shown.wording)),
  ];
  return `<!DOCTYPE html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
<style>${STYLE}${musicFont(passages)}</style>
</head>
<body>
<header><h1 dir="auto">${escapeHtml(title)}</h1>${person(options, drawing)}</header>
<main>
${options.notes === undefined ? '' : `<section class="teacher"><h2>${escapeHtml(words.teacherNotes)}</h2><div dir="auto">${escapeHtml(options.notes)}</div></section>`}
${sections.join('\n')}
<section class="caution"><p><strong>${escapeHtml(words.caution)}.</strong> ${escapeHtml(shown.caution)}</p></section>
</main>
<footer class="made">${escapeHtml(fill(words.engraved, { version: options.version }))}</footer>
</body>
</html>
`;
}

/** Once for all systems. */
function musicFont(passages: readonly Passage[]): string {
  const systems = passages.flatMap((passage) => passage.systems);
  return systems.find(({ font }) => font !== '')?.font ?? '';
}

function person({ student, date }: HandoutOptions, { words }: Drawing): string {
  const name =
    student === undefined
      ? []
      : [fill(escapeHtml(words.student), { name: `<bdi>${escapeHtml(student)}</bdi>` })];
  const day = date === undefined ? [] : [`<bdi>${escapeHtml(date)}</bdi>`];
  const parts = [...name, ...day];
  return parts.length === 0 ? '' : `<p>${parts.join(' · ')}</p>`;
}

function section(heading: string, content: string): string {
  return `<section><h2>${escapeHtml(heading)}</h2>${content}</section>`;
}

/** The systems; under each of the printed fingering the same measures with the easier one. */
function music(printed: Passage, easier: Passage | undefined, drawing: Drawing): string {
  if (!easier) return systemBlocks(printed, drawing).join('');
  const { words } = drawing;
  const movement = fill(words.compared, {
    printed: Math.round(printed.movement),
    easier: Math.round(easier.movement),
  });
  const first = systemBlocks(printed, drawing, words.asPrinted);
  const second = systemBlocks(easier, drawing, words.easier);
  const rows = easier.like.map(({ from, to }, nth) => {
    return `<div class="pair">${first[nth]}${second.slice(from, to).join('')}</div>`;
  });
  return `<p>${escapeHtml(movement)}</p>${rows.join('')}`;
}

/** Chords that the hand cannot take whole, and what can be done. */
function outOfReach({ lines }: Passage, { words, language }: Drawing): string {
  const places = lines.flatMap(({ line, partName, unreachable }) =>
    unreachable.map((own) => ({ ...own, hand: handText(words, line.hand, partName) })),
  );
  if (places.length === 0) return '';
  const items = places.slice(0, MOST_TOLD).map(({ measure, beat, hand, message }) => {
    const place = fill(words.place, {
      where: measureText(words, measure),
      beat: beatText(beat, language),
      hand,
    });
    return `<li><strong>${escapeHtml(place)}</strong>${escapeHtml(words.colon)} ${escapeHtml(message)}</li>`;
  });
  const left = places.length - items.length;
  const more = left > 0 ? `<p>${escapeHtml(fill(words.more, { count: left }))}</p>` : '';
  const content = `<p>${escapeHtml(words.waysOut)}</p><ul>${items.join('')}</ul>${more}`;
  return section(words.outOfReach, content);
}

/** The gravest, in the order of the score, each with the easier way. */
function findings(judged: Review, { lines }: Passage, { words, language }: Drawing): string {
  if (judged.findings.length === 0) return `<p>${escapeHtml(words.noFindings)}</p>`;
  const told = findingTexts(judged)
    .slice(0, MOST_TOLD)
    .sort((a, b) => a.finding.number - b.finding.number);
  const items = told.map(({ finding: { part, measure, beat, hand }, text }) => {
    const own = lines.find(({ partId, line }) => partId === part && line.hand === hand);
    const place = fill(words.place, {
      where: measureText(words, measure),
      beat: beatText(beat, language),
      hand: handText(words, hand, own?.partName),
    });
    return `<li><strong>${escapeHtml(place)}</strong>${escapeHtml(words.colon)} ${escapeHtml(text)}</li>`;
  });
  const left = judged.findings.length - items.length;
  const rest = left === 1 ? words.oneMoreFinding : fill(words.moreFindings, { count: left });
  const more = left > 0 ? `<p>${escapeHtml(rest)}</p>` : '';
  return `<ul>${items.join('')}</ul>${more}<p>${escapeHtml(judged.advice)}</p>`;
}

function signs(
  passages: readonly Passage[],
  drawn: DrawnParts,
  drawing: Drawing,
  wording: Shown['wording'],
): string {
  const items = legendItems(passages, drawn, drawing, wording);
  return `<p>${escapeHtml(drawing.words.ribbon)}</p><ul class="legend">${items.join('')}</ul>`;
}
