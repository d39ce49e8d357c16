import type { VerovioToolkit } from 'verovio/esm';
import { CliError, Exit } from '../exit.js';
import { mostGraces } from './score/graces.js';
import { longestMeasure } from './score/lengths.js';
import { partwise } from './score/partwise.js';
import { withoutTimes } from './score/repeats.js';
import { withShortNames } from './score/short-names.js';

/** Width of a system, mm: fits between margins of 15 mm on A4 and on Letter. */
export const SYSTEM_WIDTH = 180;
/** Staves are 7.2 mm high at 100; a little less leaves room for digits and cues. */
const SCALE = 74;
/** Room beside the staves for measure numbers and braces, in verovio's tenths of a millimetre. */
const SIDE = 35;
/** Pixels of verovio for a mm on paper. */
const PIXELS = 10;
/** Width of a notehead in thousandths of verovio's em, for a whole note and for the others: read off its font. */
const WHOLE_NOTE = 'E0A2';
const WHOLE_WIDTH = 424;
const HEAD_WIDTH = 302;

/** Measures of a system that can be squeezed for one more: a fifth narrower at most, where they are alike. */
const LEAST_JOINED = 4;

/** Grace notes in a row that verovio lays out in a second or two; the time grows with their square, to 90 s for 5,000. */
const MOST_GRACES = 500;
/** Quarter notes of a measure that verovio lays out in no time; it fills gaps beat by beat, and takes 20 s for 50,000. */
const MOST_QUARTERS = 2000;

/** One system as it is drawn. */
export interface System {
  /** An `<svg>` without ids; notes have theirs as `data-note`, digits that of their note as `data-digit-of`. */
  readonly svg: string;
  /** The music font for signs within texts, such as the note of a metronome mark: an `@font-face`, empty if not needed. */
  readonly font: string;
  /** Measures that it has. */
  readonly measures: number;
  /** Centres of the noteheads, mm from the left edge, by the ids of `labelNotes`. */
  readonly notes: ReadonlyMap<string, number>;
}

/** First and last measure, counted from 0. */
export interface MeasureRange {
  readonly first: number;
  readonly last: number;
}

/** What is drawn, and how. */
export interface Layout {
  /** Default: the whole score. */
  readonly range?: MeasureRange;
  /** `own`: systems break where the score says. */
  readonly breaks?: 'own';
  /** `full`: the last system is as wide as the others, however few notes it holds. */
  readonly last?: 'full';
}

/** Draws MusicXML system by system. */
export interface Engraver {
  /** @throws CliError where the score cannot be read */
  readonly systems: (text: string, layout?: Layout) => readonly System[];
  /** The same engraver for another page, on which the glyphs are named from the first again. */
  readonly anew: () => Engraver;
}

/** The engraver is large, so it is loaded only where something is engraved. */
export async function loadEngraver(): Promise<Engraver> {
  const [{ enableLog, LOG_OFF, VerovioToolkit }, { default: createModule }] = await Promise.all([
    import('verovio/esm'),
    import('verovio/wasm'),
  ]);
  const module = await createModule();
  enableLog(LOG_OFF, module);
  const newToolkit = () => new VerovioToolkit(module);
  return engraverOf({ newToolkit, toolkit: newToolkit(), loaded: undefined });
}

/** verovio, with the score that it has read last, and with whose breaks. */
interface Press {
  readonly newToolkit: () => VerovioToolkit;
  toolkit: VerovioToolkit;
  loaded: { readonly text: string; readonly breaks: Layout['breaks'] | undefined } | undefined;
}

function engraverOf(press: Press): Engraver {
  let drawn = 0;
  return {
    anew: () => engraverOf(press),
    systems(text, layout = {}) {
      try {
        return pagesOf(press, text, layout).map((svg) => {
          drawn += 1;
          return systemOf(svg, `s${drawn}`);
        });
      } catch (error) {
        if (!(error instanceof WebAssembly.RuntimeError)) throw error;
        // A score that verovio cannot cope with; what it has in memory is of no more use.
        press.toolkit = press.newToolkit();
        press.loaded = undefined;
        throw new CliError(Exit.refused, 'cannot be engraved by verovio, which fails on it');
      }
    },
  };
}

/** Every system as verovio draws it. @throws CliError where verovio does not read the score */
function pagesOf(press: Press, text: string, { range, breaks, last }: Layout): string[] {
  const { toolkit } = press;
  toolkit.setOptions({
    scale: SCALE,
    pageWidth: (SYSTEM_WIDTH * PIXELS * 100) / SCALE,
    // Less than a system, so that every system is a page of its own.
    pageHeight: 100,
    adjustPageHeight: true,
    pageMarginTop: 0,
    pageMarginBottom: 0,
    pageMarginLeft: SIDE,
    pageMarginRight: SIDE,
    header: 'none',
    footer: 'none',
    breaks: breaks === 'own' ? 'encoded' : 'auto',
    // A system of the score's own is full, however few notes it holds.
    minLastJustification: breaks === 'own' || last === 'full' ? 0 : 0.8,
    breaksNoWidow: false,
    svgFormatRaw: true,
    smuflTextFont: 'embedded',
    xmlIdSeed: 1,
    svgAdditionalAttribute: ['fing@startid'],
  });
  // Chosen before loading, so that nothing else is laid out.
  toolkit.select(range ? { measureRange: `${range.first + 1}-${range.last + 1}` } : {});
  const { loaded } = press;
  if (loaded?.text === text && loaded.breaks === breaks) toolkit.redoLayout();
  else {
    press.loaded = undefined;
    const readable = withShortNames(withoutTimes(partwise(text)));
    if (mostGraces(readable) > MOST_GRACES)
      throw new CliError(
        Exit.refused,
        `cannot be engraved: more than ${MOST_GRACES} grace notes follow one another`,
      );
    if (longestMeasure(readable) > MOST_QUARTERS)
      throw new CliError(
        Exit.refused,
        `cannot be engraved: a measure is longer than ${MOST_QUARTERS} quarter notes`,
      );
    // Every system is a page here.
    const paged = breaks === 'own' ? readable.replaceAll('new-system="yes"', 'new-page="yes"') : readable;
    if (!toolkit.loadData(paged)) throw new CliError(Exit.refused, 'cannot be engraved by verovio');
    press.loaded = { text, breaks };
  }
  const pages = rendered(toolkit);
  if (breaks === 'own' || last === 'full' || !endsAlone(pages)) return pages;
  toolkit.setOptions({ breaksNoWidow: true });
  toolkit.redoLayout();
  return rendered(toolkit);
}

function rendered(toolkit: VerovioToolkit): string[] {
  return Array.from({ length: toolkit.getPageCount() }, (_, page) => toolkit.renderToSVG(page + 1));
}

/** True where the last measure stands alone, and the system before it can take it too. */
function endsAlone(pages: readonly string[]): boolean {
  const [before, last] = pages.slice(-2).map(measuresIn);
  return last === 1 && before! >= LEAST_JOINED;
}

function measuresIn(svg: string): number {
  return svg.split(' class="measure"').length - 1;
}

/** The number of an ending's bracket that goes on in a new system, in parentheses: before it, where it is, and its size. */
const CONTINUED =
  /(class="voltaBracket"><text (?:x="[-\d.]+" )?y=")([-\d.]+)("[^>]*>(?:<tspan(?![^>]*font-size)[^>]*>)*<tspan font-size=")([\d.]+)(?=px">\()/g;
/** So much smaller it hangs no lower than one without parentheses, for which verovio keeps room. */
const CONTINUED_SIZE = 0.75;

const FONT = /<style[^>]*>\s*(@font-face\s*\{[^}]*\})\s*<\/style>/;

/** @param name tells the glyphs of this system from those of the others on the page */
function systemOf(svg: string, name: string): System {
  const [, root = ''] = /<svg [^>]*\bid="([^"]+)"/.exec(svg) ?? [];
  const [, width = '1', height = '1'] = /<svg width="([\d.]+)px" height="([\d.]+)px"/.exec(svg) ?? [];
  const drawn = svg
    .replaceAll(new RegExp(`\\b${root}\\b`, 'g'), name)
    .replace(
      /<svg [^>]*>/,
      `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" class="music" id="${name}" viewBox="0 0 ${width} ${height}" overflow="visible" direction="ltr" aria-hidden="true">`,
    )
    .replace(' color="black"', ' color="currentColor"')
    .replaceAll(CONTINUED, (_, tag: string, y: string, text: string, size: string) => {
      const less = Number(size) * (1 - CONTINUED_SIZE);
      return `${tag}${Number(y) - 0.6 * less}${text}${Number(size) - less}`;
    })
    .replaceAll(/<g id="(?!E)(?!note-)[^"]*"/g, '<g')
    .replaceAll(/<g id="(note-\d+-\d+)"/g, '<g data-note="$1"')
    .replaceAll('data-startid="#', 'data-digit-of="');
  const [, font = ''] = FONT.exec(drawn) ?? [];
  return { svg: drawn.replace(FONT, ''), font, measures: measuresIn(drawn), notes: noteheads(drawn) };
}

function noteheads(svg: string): Map<string, number> {
  const [, all = '1'] = /class="definition-scale"[^>]* viewBox="0 0 ([\d.]+) /.exec(svg) ?? [];
  const [, margin = '0'] = /class="page-margin" transform="translate\(([-\d.]+)/.exec(svg) ?? [];
  const mm = SYSTEM_WIDTH / Number(all);
  const notes = new Map<string, number>();
  for (const piece of svg.split('<g data-note="').slice(1)) {
    const id = piece.slice(0, piece.indexOf('"'));
    const head =
      /class="notehead[^"]*"[^>]*>\s*<use xlink:href="#(E[0-9A-F]{3})-[^"]*" transform="translate\(([-\d.]+), ?[-\d.]+\) scale\(([\d.]+)/.exec(
        piece,
      );
    if (!head) continue;
    const [, glyph, x, scale] = head;
    const half = ((glyph === WHOLE_NOTE ? WHOLE_WIDTH : HEAD_WIDTH) * Number(scale)) / 2;
    notes.set(id, (Number(margin) + Number(x) + half) * mm);
  }
  return notes;
}
