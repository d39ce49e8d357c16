import { tagsOf } from './tags.js';

/** What of a measure is heeded by those behind it. */
const LASTING = ['attributes', 'barline', 'direction'];
/** What begins in one measure and may end in another, by the types that begin it. */
const SPANNING: Readonly<Record<string, readonly string[]>> = {
  tied: ['start'],
  slur: ['start'],
  wedge: ['crescendo', 'diminuendo'],
  dashes: ['start'],
};
/** With its attributes but for the one that says whether it is printed. */
const TIME =
  /<time((?:\s+(?!print-object)[\w:-]+\s*=\s*(?:"[^"]*"|'[^']*'))*)(?:\s+print-object\s*=\s*(?:"[^"]*"|'[^']*'))?/g;
/** Measures that such a thing is followed beyond the chosen ones: in damaged scores some never end. */
const FARTHEST = 8;

/** A score of one part without its name, which every excerpt would say again; others as they are. */
export function unnamed(text: string): string {
  const [, second] = [...tagsOf(text, ['score-part'])].filter(({ kind }) => kind === 'start');
  return second ? text : text.replace(/(<part-name)[^>]*>[^<]*(?=<\/part-name>)/, '$1>');
}

/** The content of a measure of a part. */
interface Measure {
  readonly nth: number;
  readonly start: number;
  readonly end: number;
}

/**
 * Gives a partwise score in which only some measures, counted from 0, have their notes, and those to which they are tied or
 * slurred: an engraver that lays out these alone need not read the rest. The others keep what holds on behind them:
 * attributes, repeats, octave lines.
 */
export function excerptsOf(text: string): (first: number, last: number) => string {
  const measures = measuresOf(text);
  const open = openInto(text, measures);
  return (first, last) => {
    let [from, to] = [first, last];
    while (open[from]! > 0 && first - from < FARTHEST) from -= 1;
    while (open[to + 1]! > 0 && to - last < FARTHEST) to += 1;
    const pieces: string[] = [];
    let end = 0;
    for (const measure of measures) {
      if (measure.nth >= from && measure.nth <= to) continue;
      const content = text.slice(measure.start, measure.end);
      pieces.push(text.slice(end, measure.start), measure.nth < from ? lasting(content) : '');
      end = measure.end;
    }
    return pieces.join('') + text.slice(end);
  };
}

/** The measures of every part. */
function measuresOf(text: string): Measure[] {
  const measures: Measure[] = [];
  let nth = 0;
  let from = 0;
  for (const { name, kind, start, end } of tagsOf(text, ['part', 'measure'])) {
    if (name === 'part') nth = 0;
    else if (kind === 'start') from = end;
    else {
      if (kind === 'end') measures.push({ nth, start: from, end: start });
      nth += 1;
    }
  }
  return measures;
}

/** How many things that began before each measure have not ended there. */
function openInto(text: string, measures: readonly Measure[]): number[] {
  const changes: number[] = [];
  for (const { nth, start, end } of measures) {
    const content = text.slice(start, end);
    let change = 0;
    for (const tag of tagsOf(content, Object.keys(SPANNING))) {
      const [, type = ''] = /\stype\s*=\s*["'](\w+)/.exec(content.slice(tag.start, tag.end)) ?? [];
      if (SPANNING[tag.name]!.includes(type)) change += 1;
      else if (type === 'stop') change -= 1;
    }
    changes[nth] = (changes[nth] ?? 0) + change;
  }
  const open = [0];
  changes.forEach((change, nth) => {
    open.push(open[nth]! + (change ?? 0));
  });
  return open;
}

function lasting(measure: string): string {
  let kept = '';
  let from = 0;
  for (const { name, kind, start, end } of tagsOf(measure, LASTING)) {
    if (kind === 'start') from = start;
    else if (kind === 'end') {
      const own = measure.slice(from, end);
      // A time signature holds on, but is not printed again.
      if (name === 'attributes') kept += own.replaceAll(TIME, '<time print-object="no"$1');
      else if (name !== 'direction' || own.includes('<octave-shift')) kept += own;
    }
  }
  return kept;
}
