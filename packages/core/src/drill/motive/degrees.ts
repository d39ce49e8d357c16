import { type Check, count, fields, listOf, refuse, text } from '../../options/check.js';
import { noteValue } from '../rhythm/values.js';
import type { Motive, MotiveNote, MotiveStep } from './motive.js';

/** A degree: 1 for the tonic, 8 for its octave, 0 and below for what lies under it; `#4` and `b3` are altered. */
export type Degree = number | string;

/** A motive as a list of degrees. */
export interface DegreeMotive {
  /** One after the other; a list is a chord, null a rest. */
  readonly degrees: readonly (Degree | readonly Degree[] | null)[];
  /** Note values in turn; absent: the rhythm of the sheet. */
  readonly rhythm?: readonly string[];
}

const MOST_NOTES = 64;
const LARGEST = 29;

const degree: Check = (value, name) => {
  if (typeof value === 'number') count(-LARGEST, LARGEST)(value, name);
  else if (typeof value !== 'string' || !/^[#b]{0,2}-?\d{1,2}$/.test(value)) {
    refuse(value, name, 'a degree such as 1, 5 or "#4", a list of degrees for a chord, or null for a rest');
  }
};

const degrees: Check = (value, name) => {
  listOf((one, own) => {
    if (one === null) return;
    if (!Array.isArray(one)) return degree(one, own);
    if (one.length === 0) refuse(one, own, 'at least one degree in a chord');
    listOf(degree)(one, own);
  })(value, name);
  const { length } = value as readonly unknown[];
  if (length === 0 || length > MOST_NOTES) refuse(value, name, `1 to ${MOST_NOTES} degrees`);
};

export const checkDegrees: Check = fields({ degrees, rhythm: listOf(text) }, ['degrees']);

/** Both hands play the degrees. */
export function motiveOfDegrees({ degrees: given, rhythm }: DegreeMotive): Motive {
  const values = rhythm?.length ? rhythm.map(noteValue) : undefined;
  const steps = given.map((one, nth): MotiveStep => {
    const chord = one === null ? [] : Array.isArray(one) ? (one as readonly Degree[]) : [one as Degree];
    return {
      notes: chord.map(noteOfDegree),
      ...(values && { ticks: values[nth % values.length]!.ticks }),
    };
  });
  return { right: steps, left: steps };
}

function noteOfDegree(one: Degree): MotiveNote {
  const [, signs = '', number = ''] = /^([#b]*)(-?\d+)$/.exec(String(one))!;
  const alter = [...signs].reduce((sum, sign) => sum + (sign === '#' ? 1 : -1), 0);
  return { place: Number(number) - 1, alter };
}
