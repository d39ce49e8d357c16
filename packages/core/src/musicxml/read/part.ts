import { fill } from '../../messages/fill.js';
import type { ReadingFault } from '../../messages/words.js';
import { ZERO } from '../../numeric/fraction.js';
import { MAX_DURATION_QUARTERS, MAX_STAVES } from '../../options/limits.js';
import { HandlineError } from '../../score/errors.js';
import type { TieRole } from '../../score/model.js';
import type { XmlElement } from '../xml/tree.js';
import type { Event, FlowElement, MeasureDraft, NoteDraft, PartContext, PartDraft } from './drafts.js';
import { PartAttributes } from './elements/attributes.js';
import { type DirectionFacts, readDirection, readSound } from './elements/directions.js';
import { writtenQuarters } from './elements/duration.js';
import { stackOf } from './elements/notations.js';
import { isInOrder, readNote, type WrittenNote } from './elements/note.js';
import { decimal, integer } from './elements/number.js';
import { type NoKey, pitchOf } from './elements/pitch.js';
import type { MeasureSource, PartSource } from './parts/part-source.js';

/** Reads one part measure by measure; `read` is called once. */
export class PartReader {
  private readonly attributes = new PartAttributes();
  private readonly notes: NoteDraft[] = [];
  private readonly elements: XmlElement[] = [];
  private readonly ticks: number[] = [];
  private readonly lengths: number[] = [];
  private readonly measures: MeasureDraft[] = [];
  private readonly events: Event[] = [];
  private readonly rests: Event[] = [];
  private readonly flow: FlowElement[] = [];
  private readonly graces = new Map<string, number>();
  private measure!: MeasureSource;
  private cursor = 0;
  private furthest = 0;
  /** Onset of the last note that is not a chord member; undefined where a chord member would have nothing to join. */
  private chordTick: number | undefined;
  private chordGrace = -1;
  private run = 0;

  constructor(
    private readonly source: PartSource,
    private readonly context: PartContext,
  ) {}

  read(): PartDraft {
    for (const measure of this.source.measures) this.readMeasure(measure);
    const { source, attributes, notes, elements, ticks, lengths, measures, events, rests, flow } = this;
    return { source, attributes, notes, elements, ticks, lengths, measures, events, rests, flow };
  }

  private readMeasure(measure: MeasureSource): void {
    this.measure = measure;
    [this.cursor, this.furthest, this.chordTick] = [0, 0, undefined];
    this.run += 1;
    for (const element of measure.content.children) {
      switch (element.name) {
        case 'note':
          this.readNote(element);
          break;
        case 'backup':
          this.move(element, -1);
          break;
        case 'forward':
          this.move(element, 1);
          break;
        case 'attributes':
          if (!this.attributes.read(element)) this.warn('attributes', element);
          break;
        case 'direction':
          this.addEvent(readDirection(element, this.context.passesOver), element);
          this.addFlow(element);
          break;
        case 'sound':
          this.addEvent(readSound(element), element);
          this.addFlow(element);
          break;
        case 'barline':
          this.addFlow(element);
          break;
      }
    }
    this.measures.push({ source: measure, length: this.furthest, metre: this.attributes.metre });
  }

  private move(element: XmlElement, sign: 1 | -1): void {
    const divisions = decimal(element.textOf('duration'));
    if (divisions === undefined || divisions <= 0)
      this.warn(sign === 1 ? 'no-forward' : 'no-backup', element);
    const ticks = this.toTicks(divisions ?? 0, element) * sign;
    if (this.cursor + ticks < 0) this.warn('backup-too-far', element);
    this.advance(Math.max(this.cursor + ticks, 0));
    this.chordTick = undefined;
    this.run += 1;
  }

  private advance(tick: number): void {
    this.cursor = tick;
    this.furthest = Math.max(this.furthest, tick);
  }

  private addEvent(facts: DirectionFacts, element: XmlElement): void {
    if (facts.tempo === undefined && facts.pedal === undefined && facts.hand === undefined) return;
    const offset = decimal(element.textOf('offset') ?? element.child('sound')?.textOf('offset')) ?? 0;
    const ticks = this.toTicks(offset, element);
    const staff = integer(element.textOf('staff')) ?? 1;
    const tick = Math.max(this.cursor + ticks, 0);
    this.events.push(Object.assign(facts, { measure: this.measures.length, tick, staff }));
  }

  private addFlow(element: XmlElement): void {
    this.flow.push({ element, measure: this.measures.length, tick: this.cursor });
  }

  private readNote(element: XmlElement): void {
    this.context.count.add();
    const { children } = element;
    const written = readNote(element, children);
    if (!isInOrder(children)) this.warn('order', element);
    if (written.chord && this.chordTick === undefined) this.warn('lone-chord-member', element);
    const joins = written.chord && this.chordTick !== undefined;
    const tick = joins ? (this.chordTick as number) : this.cursor;
    const ticks = written.grace ? 0 : this.durationOf(written, element);
    const grace = this.graceIndex(written, joins);
    if (!joins) {
      this.chordTick = tick;
      this.chordGrace = grace;
      if (!written.grace) this.advance(this.cursor + ticks);
    } else this.furthest = Math.max(this.furthest, tick);
    const staff = Math.min(Math.max(written.staff ?? 1, 1), MAX_STAVES);
    if (written.rest) this.rests.push({ measure: this.measures.length, tick, staff });
    else {
      if (staff > this.source.staves) this.warn('staff-beyond', element);
      const at = { tick, ticks, grace, staff, chord: joins };
      this.addNote(written, element, at);
    }
  }

  /** Graces of a voice are counted on until a full note follows, also over a barline. */
  private graceIndex(written: WrittenNote, joins: boolean): number {
    if (!written.grace) {
      if (!written.rest && !written.cue) this.graces.delete(written.voice);
      return -1;
    }
    if (joins) return this.chordGrace;
    if (written.cue) return -1;
    const index = this.graces.get(written.voice) ?? 0;
    this.graces.set(written.voice, index + 1);
    return index;
  }

  private addNote(
    written: WrittenNote,
    element: XmlElement,
    at: { tick: number; ticks: number; grace: number; staff: number; chord: boolean },
  ): void {
    if (written.pitch === undefined || written.cue || written.hidden || !this.attributes.isPlayed(at.staff))
      return;
    const pitch = pitchOf(written.pitch, this.attributes.transposition(at.staff));
    if (typeof pitch === 'string' || pitch.key < 21 || pitch.key > 108) {
      this.warnKey(typeof pitch === 'string' ? pitch : pitch.key, element);
      return;
    }
    const { notations } = written;
    const { span } = element;
    const { line, column } = this.context.lines.positionAt(span.start);
    this.elements.push(element);
    this.ticks.push(at.tick);
    this.lengths.push(at.ticks);
    this.notes.push({
      id: this.notes.length,
      span,
      line,
      column,
      measure: this.measures.length,
      staff: at.staff,
      voice: written.voice,
      onset: ZERO,
      duration: ZERO,
      key: pitch.key,
      diatonic: pitch.diatonic,
      chord: at.chord,
      grace: at.grace,
      tie: tieRole(notations),
      tiedFrom: -1,
      run: this.run,
      digits: notations.digits,
      stack: stackOf(notations),
      staccato: notations.staccato,
      fermata: notations.fermata,
      slurStart: notations.slurStart,
      slurStop: notations.slurStop,
      arpeggiate: notations.arpeggiate,
      ornaments: notations.ornaments,
    });
  }

  private warnKey(key: number | NoKey, element: XmlElement): void {
    if (key === 'unreadable') this.warn('unreadable-pitch', element);
    else if (key === 'microtonal') this.warn('microtone', element);
    else {
      const { warnings } = this.context;
      warnings.add('OUT_OF_RANGE', warnings.words.reading['out-of-range'], this.subject(element));
    }
  }

  private durationOf(written: WrittenNote, element: XmlElement): number {
    const { duration } = written;
    if (duration !== undefined && duration > 0) return this.toTicks(duration, element);
    if (duration === 0) {
      this.warn(written.rest ? 'empty-rest' : 'empty-note', element);
      return 0;
    }
    const quarters = writtenQuarters(element);
    this.warn('no-duration', element);
    return Math.round((quarters ?? 0) * this.context.grid.ticks);
  }

  private toTicks(divisions: number, element: XmlElement): number {
    if (divisions === 0) return 0;
    if (this.attributes.divisions === undefined) this.warn('no-divisions', element);
    const quarters = divisions / (this.attributes.divisions ?? 1);
    if (Math.abs(quarters) > MAX_DURATION_QUARTERS) {
      const place = this.context.warnings.place(this.subject(element));
      throw new HandlineError(
        'NUMBER',
        `a duration of ${quarters} quarter notes is refused; correct it`,
        place,
      );
    }
    const exact = quarters * this.context.grid.ticks;
    const ticks = Math.round(exact);
    if (!this.context.grid.exact && Math.abs(exact - ticks) > 1e-6) this.warn('rounded', element);
    return ticks;
  }

  private warn(fault: ReadingFault, element: XmlElement): void {
    const { warnings } = this.context;
    const message = fill(warnings.words.reading[fault], { staves: this.source.staves });
    warnings.add('IMPERFECT', message, this.subject(element));
  }

  private subject(element: XmlElement) {
    return { part: this.source.id, measure: this.measure.number, element };
  }
}

function tieRole({ tiedStart, tiedStop }: { tiedStart: boolean; tiedStop: boolean }): TieRole {
  if (tiedStart) return tiedStop ? 'both' : 'start';
  return tiedStop ? 'stop' : 'none';
}
