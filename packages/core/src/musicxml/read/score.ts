import { MESSAGES } from '../../messages/messages.js';
import { type Fraction, gcd } from '../../numeric/fraction.js';
import { MAX_SCORE_QUARTERS } from '../../options/limits.js';
import type { Language, Limits } from '../../options/options.js';
import { HandlineError, type Warning } from '../../score/errors.js';
import { isKeyboard } from '../../score/instrument.js';
import type { Clef, Measure, Part, Score, Stretch, TempoMark } from '../../score/model.js';
import { playingOrder } from '../../score/playing-order.js';
import { resolveTies } from '../../score/ties.js';
import { LineIndex } from '../xml/position.js';
import type { XmlElement } from '../xml/tree.js';
import type { MeasureDraft, NoteDraft, PartDraft } from './drafts.js';
import { applyHandWords } from './hand-words.js';
import { NoteCount } from './note-limit.js';
import { PartReader } from './part.js';
import { readParts } from './parts/parts.js';
import { pedalSpans } from './pedal.js';
import { Quarters } from './quarters.js';
import { readFlow } from './repeats.js';
import { type Section, Sections } from './sections.js';
import { gridOf } from './time-grid.js';
import { Warnings } from './warnings.js';

export interface ReadContext {
  readonly file?: string;
  readonly limits: Limits;
  /** That of the warnings. Default English. */
  readonly messages?: Language;
  /** Words that govern no hand, whatever they say. */
  readonly passesOver?: (words: XmlElement) => boolean;
}

/** A score and the elements that it was read from. */
export interface ReadResult {
  readonly score: Score;
  readonly root: XmlElement;
  /** `elements[part][note.id]` is the `<note>`. */
  readonly elements: readonly (readonly XmlElement[])[];
  /** `measureElements[part][measure]` holds the notes: `<measure>`, or `<part>` in a timewise score. */
  readonly measureElements: readonly (readonly XmlElement[])[];
  readonly warnings: readonly Warning[];
}

/**
 * @param root root element of `text`
 * @throws HandlineError NOT_MUSICXML, NUMBER or LIMIT
 */
export function readScore(root: XmlElement, text: string, context: ReadContext): ReadResult {
  const sources = readParts(root, context.file);
  const lines = new LineIndex(text);
  const warnings = new Warnings(lines, MESSAGES[context.messages ?? 'en'], context.file);
  warnOfRepeatedIds(root, warnings);
  const grid = gridOf(sources);
  const count = new NoteCount(context.limits, context.file);
  const { passesOver = nothing } = context;
  const partContext = { grid, lines, warnings, count, passesOver };
  const drafts = sources.map((source) => new PartReader(source, partContext).read());
  const starts = measureStarts(drafts, grid.ticks, context);
  const time = new Quarters(grid.ticks);
  const order = stretches(drafts, starts, time);
  return {
    score: {
      version: root.attribute('version') ?? '1.0',
      parts: drafts.map((draft, index) => finishPart(draft, index, starts, order, time, grid.ticks, lines)),
      tempo: tempoMarks(drafts, starts, time),
    },
    root,
    elements: drafts.map((draft) => draft.elements),
    measureElements: drafts.map((draft) => draft.measures.map(contentOf)),
    warnings: warnings.list(),
  };
}

function warnOfRepeatedIds(root: XmlElement, warnings: Warnings): void {
  if (root.name !== 'score-partwise') return;
  const seen = new Set<string>();
  for (const element of root.all('part')) {
    const part = element.attribute('id') ?? '';
    if (seen.has(part)) warnings.add('IMPERFECT', warnings.words.reading['repeated-id'], { part, element });
    seen.add(part);
  }
}

function nothing(): boolean {
  return false;
}

function contentOf({ source }: MeasureDraft): XmlElement {
  return source.content;
}

/** Starts of all measures in ticks, one more than there are; a measure is as long as its fullest part. */
function measureStarts(
  drafts: readonly PartDraft[],
  ticksPerQuarter: number,
  { file }: ReadContext,
): number[] {
  const count = drafts.reduce((most, draft) => Math.max(most, draft.measures.length), 0);
  const starts = [0];
  let at = 0;
  for (let index = 0; index < count; index++) {
    let length = 0;
    for (const draft of drafts) length = Math.max(length, draft.measures[index]?.length ?? 0);
    if (length === 0) {
      const metre = drafts.find((draft) => draft.measures[index] !== undefined)?.measures[index]?.metre;
      if (metre !== undefined) length = Math.round((metre.nominal.num * ticksPerQuarter) / metre.nominal.den);
    }
    at += length;
    if (at / ticksPerQuarter > MAX_SCORE_QUARTERS) {
      const message = `the score is longer than ${MAX_SCORE_QUARTERS} quarter notes; correct its durations`;
      throw new HandlineError('NUMBER', message, file === undefined ? {} : { file });
    }
    starts.push(at);
  }
  return starts;
}

/** Everything in the order in which it is played; pieces of a measure that follow each other as printed are one. */
function stretches(drafts: readonly PartDraft[], starts: readonly number[], time: Quarters): Stretch[] {
  const sections = new Sections(drafts, starts);
  const found: Stretch[] = [];
  let last: number | undefined;
  for (const at of playingOrder(readFlow(drafts, sections))) {
    const { measure, from, to } = sections.list[at] as Section;
    const start = starts[measure] as number;
    const stretch = { measure, from: time.of(start + from), to: time.of(start + to) };
    const before = found.at(-1);
    if (before?.measure === measure && last === at - 1)
      found[found.length - 1] = { ...stretch, from: before.from };
    else found.push(stretch);
    last = at;
  }
  return found;
}

function finishPart(
  draft: PartDraft,
  index: number,
  starts: readonly number[],
  order: readonly Stretch[],
  time: Quarters,
  ticksPerQuarter: number,
  lines: LineIndex,
): Part {
  const { source, attributes } = draft;
  applyHandWords(draft, starts);
  finishNotes(draft, starts, time, ticksPerQuarter);
  const measures = finishMeasures(draft, starts, time, lines);
  return {
    id: source.id,
    name: source.name,
    index,
    staves: source.staves,
    ...(source.partner && { partner: source.partner }),
    keyboard: isKeyboard(source),
    clefs: clefs(source.staves, attributes.firstClefs),
    measures,
    notes: draft.notes,
    pedal: pedalSpans(draft, starts, time),
    playingOrder: stretchesWithin(order, measures.length),
  };
}

function finishNotes(
  { notes, ticks, lengths }: PartDraft,
  starts: readonly number[],
  time: Quarters,
  ticksPerQuarter: number,
): void {
  const length = new Quarters(ticksPerQuarter);
  const begin: number[] = [];
  for (let id = 0; id < notes.length; id++) {
    begin.push((starts[(notes[id] as NoteDraft).measure] ?? 0) + (ticks[id] ?? 0));
  }
  // An eighth of a quarter note: rounded tuplet durations may leave a small gap before a tie's end.
  const tiedFrom = resolveTies(notes, begin, lengths, Math.ceil(ticksPerQuarter / 8));
  for (let id = 0; id < notes.length; id++) {
    const note = notes[id] as NoteDraft;
    note.onset = time.of(begin[id] as number);
    note.duration = length.of(lengths[id] as number);
    note.tiedFrom = tiedFrom[id] as number;
  }
}

function finishMeasures(
  draft: PartDraft,
  starts: readonly number[],
  time: Quarters,
  lines: LineIndex,
): Measure[] {
  const measures: Measure[] = [];
  for (let index = 0; index < draft.measures.length; index++) {
    const { source, metre } = draft.measures[index] as MeasureDraft;
    const { content, number, implicit } = source;
    const [start, end] = [starts[index] ?? 0, starts[index + 1] ?? 0];
    measures.push({
      index,
      number,
      start: time.of(start),
      length: time.of(end - start),
      span: content.span,
      line: lines.lineAt(content.span.start),
      beat: reduce(metre.beat),
      unit: reduce(metre.unit),
      nominal: reduce(metre.nominal),
      implicit,
    });
  }
  return measures;
}

/** A part may have fewer measures than the others. */
function stretchesWithin(order: readonly Stretch[], measures: number): Stretch[] {
  const own: Stretch[] = [];
  for (const stretch of order) if (stretch.measure < measures) own.push(stretch);
  return own;
}

function reduce({ num, den }: { num: number; den: number }): Fraction {
  const common = gcd(num, den) || 1;
  return { num: num / common, den: den / common };
}

function clefs(staves: number, found: ReadonlyMap<number, Clef>): Clef[] {
  return Array.from({ length: staves }, (_, at) => {
    const lowest = staves > 1 && at === staves - 1;
    return found.get(at + 1) ?? (lowest ? { sign: 'F', line: 4 } : { sign: 'G', line: 2 });
  });
}

function tempoMarks(drafts: readonly PartDraft[], starts: readonly number[], time: Quarters): TempoMark[] {
  const byTick = new Map<number, number>();
  for (const draft of drafts) {
    for (const event of draft.events) {
      if (event.tempo !== undefined) byTick.set((starts[event.measure] ?? 0) + event.tick, event.tempo);
    }
  }
  return [...byTick]
    .sort(([a], [b]) => a - b)
    .map(([at, quartersPerMinute]) => ({ at: time.of(at), quartersPerMinute }));
}
