import type { Draft } from '../../score/draft.js';
import type { Note } from '../../score/model.js';
import type { LineIndex } from '../xml/position.js';
import type { XmlElement } from '../xml/tree.js';
import type { PartAttributes } from './elements/attributes.js';
import type { DirectionFacts } from './elements/directions.js';
import type { NoteCount } from './note-limit.js';
import type { MeasureSource, PartSource } from './parts/part-source.js';
import type { Grid } from './time-grid.js';
import type { Warnings } from './warnings.js';

/** A note while it is read: its onset is filled in when the measures of all parts are aligned. */
export type NoteDraft = Draft<Note>;

/** A direction or rest at a time within a measure. */
export interface Event extends DirectionFacts {
  readonly measure: number;
  readonly tick: number;
  readonly staff: number;
}

/** A `<barline>`, `<direction>` or `<sound>`, any of which may steer the order of playing. */
export interface FlowElement {
  readonly element: XmlElement;
  readonly measure: number;
  /** Ticks from the measure's start. */
  readonly tick: number;
}

export interface MeasureDraft {
  readonly source: MeasureSource;
  /** Furthest time reached, in ticks; 0 where nothing stands in the measure. */
  readonly length: number;
  readonly metre: PartAttributes['metre'];
}

/** One part before the parts' measures are aligned. */
export interface PartDraft {
  readonly source: PartSource;
  readonly attributes: PartAttributes;
  readonly notes: NoteDraft[];
  /** For every note its element, its onset in ticks from the measure's start, and its length in ticks. */
  readonly elements: XmlElement[];
  readonly ticks: number[];
  readonly lengths: number[];
  readonly measures: MeasureDraft[];
  readonly events: Event[];
  readonly rests: Event[];
  readonly flow: FlowElement[];
}

export interface PartContext {
  readonly grid: Grid;
  readonly lines: LineIndex;
  readonly warnings: Warnings;
  /** Notes of all parts. */
  readonly count: NoteCount;
  /** Words that govern no hand, whatever they say. */
  readonly passesOver: (words: XmlElement) => boolean;
}
