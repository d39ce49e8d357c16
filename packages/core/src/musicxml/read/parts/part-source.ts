import type { Part } from '../../../score/model.js';
import type { XmlElement } from '../../xml/tree.js';

/** One measure of one part: where its attributes stand, and the element that holds its notes. */
export interface MeasureSource {
  readonly number: string;
  readonly implicit: boolean;
  readonly content: XmlElement;
}

/** A part with what the part list says of it, the same for partwise and timewise scores. */
export interface PartSource {
  readonly id: string;
  readonly name: string;
  readonly names: readonly string[];
  readonly sounds: readonly string[];
  readonly programs: readonly number[];
  readonly staves: number;
  readonly partner?: NonNullable<Part['partner']>;
  readonly measures: readonly MeasureSource[];
}
