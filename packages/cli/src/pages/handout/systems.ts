import {
  carryLine,
  type Drill,
  depthRibbon,
  type Language,
  type PlannedLine,
  type SlicePlace,
} from '@handline/core';
import { type MeasureRange, SYSTEM_WIDTH, type System } from '../engraver.js';
import { escapeHtml } from '../escape.js';
import type { Named } from '../score/part-names.js';
import { isWithin, type Passage } from './passage.js';
import { type HANDOUT_WORDS, measureText } from './words/words.js';

type Words = (typeof HANDOUT_WORDS)[Language];

/** Height of a band, mm: three systems with two ribbons each go on a page. */
const BAND = 8;

export interface Drawing {
  readonly language: Language;
  readonly words: Words;
  /** Draw the arm's way along the keyboard too. */
  readonly carry: boolean;
}

/** What is drawn: the slices' reports are not needed. */
export interface Drawn extends Pick<Passage, 'systems' | 'range' | 'measures'> {
  readonly lines: readonly Named<PlannedLine>[];
}

/** Systems with the ribbons of the hands under them, each a block that no page breaks. */
export function systemBlocks(passage: Drawn, drawing: Drawing, name?: string): string[] {
  const range = depthRange(passage);
  return passage.systems.map((system, nth) => {
    const label = labelOf(passage, system, drawing.words);
    const ribbons = passage.lines.map((line) => {
      const places = placesOf(line, system);
      if (places.length === 0) return '';
      const { language } = drawing;
      const { partName: part } = line;
      const options = { width: SYSTEM_WIDTH, language, ...(part !== undefined && { part }) };
      return (
        depthRibbon(line.line, line.plan, places, { ...options, range, height: BAND }) +
        (drawing.carry ? carryLine(line.line, line.plan, places, { ...options, height: BAND }) : '')
      );
    });
    const caption = name === undefined ? label : `${label}, ${name}`;
    return `<figure class="system" id="${systemId(nth, name)}"><figcaption>${escapeHtml(caption)}</figcaption><div class="sheet" tabindex="0" role="group" aria-label="${escapeHtml(caption)}"><div class="paper">${system.svg}${ribbons.join('')}</div></div></figure>`;
  });
}

/** The slices that a system shows, each at the middle of its noteheads. */
function placesOf({ line }: PlannedLine, { notes }: System): SlicePlace[] {
  const places: SlicePlace[] = [];
  let before = 0;
  for (const { index, struck } of line.slices) {
    const xs = struck
      .flatMap((key) => key.notes)
      .flatMap((note) => notes.get(`note-${line.part}-${note}`) ?? [])
      .sort((a, b) => a - b);
    const x = xs[Math.floor((xs.length - 1) / 2)];
    if (x === undefined) continue;
    before = Math.max(before, x);
    places.push({ slice: index, x: before });
  }
  return places;
}

/** The name of a system to which a link leads; compared fingerings have one each. */
function systemId(nth: number, fingering?: string): string {
  return `system-${nth + 1}${fingering === undefined ? '' : `-${encodeURIComponent(fingering)}`}`;
}

/** `Measures 1–4`, by the notes in the system. */
function labelOf(passage: Drawn, system: System, words: Words): string {
  const shown = shownMeasures(passage, system);
  if (shown === undefined) return words.music;
  const from = passage.measures[shown.first]!;
  const to = passage.measures[shown.last]!;
  return measureText(words, from, to);
}

/** The measures of which a system shows notes; undefined where it shows none. */
function shownMeasures({ lines }: Drawn, system: System): MeasureRange | undefined {
  const shown = lines.flatMap((own) =>
    placesOf(own, system).map(({ slice }) => own.line.slices[slice]!.measure),
  );
  return shown.length === 0 ? undefined : { first: Math.min(...shown), last: Math.max(...shown) };
}

/** Headings, each with a link to the system in which its measure stands. */
export function contentsList(passage: Passage, contents: Drill['contents'], { words }: Drawing): string {
  const ranges = passage.systems.map((system) => shownMeasures(passage, system));
  const items = contents.map(({ heading, measure }) => {
    const at = passage.measures.indexOf(measure);
    const nth = ranges.findIndex((range) => range !== undefined && isWithin(at, range));
    const place = measureText(words, measure);
    return `<li><a href="#${systemId(Math.max(nth, 0))}">${escapeHtml(heading)}</a> <span>${escapeHtml(place)}</span></li>`;
  });
  return `<ol class="contents">${items.join('')}</ol>`;
}

/** mm of depth that the ribbons of a page show at least. */
export const RIBBON_DEPTHS = [40, 60] as const;

/** mm to whole centimetres: the same for all ribbons of a page, so that they can be compared. */
function depthRange({ lines, range }: Drawn): readonly [number, number] {
  let [from, to]: [number, number] = [...RIBBON_DEPTHS];
  for (const { line, plan } of lines) {
    for (const { index, measure } of line.slices) {
      if (!isWithin(measure, range)) continue;
      from = Math.min(from, plan.slices[index]!.depth);
      to = Math.max(to, plan.slices[index]!.depth);
    }
  }
  return [Math.floor(from / 10) * 10, Math.ceil(to / 10) * 10];
}
