import { describe, expect, it } from 'vitest';
import type { LayerCues } from '#core/cues/layer-cues.js';
import { readableCues } from '#core/cues/readable.js';
import { type Made, made } from './made-plans.js';

/** What is said, by slice: `3: arm-left`. */
const said = (cues: LayerCues): string[] =>
  [...cues.entries()].flatMap(([at, key]) => (key ? [`${at}: ${key}`] : []));

describe('cues that come quicker than they can be read', () => {
  const told = (slices: readonly Made[], cues: LayerCues) => said(readableCues(made(slices).line, cues));
  const every = (nth: number, length: number, seconds: number, more: Readonly<Record<number, Made>> = {}) => {
    const slices = Array.from({ length }, (_, at) => ({ seconds, ...more[at] }));
    return told(
      slices,
      slices.map((_, at) => (at % nth === nth - 1 ? 'arm-right' : undefined)),
    );
  };
  const at = (...places: readonly number[]) => places.map((place) => `${place}: arm-right`);

  it('are the first two of their run, under 0.6 seconds a cue', () => {
    expect(every(2, 8, 0.3)).toEqual(at(1, 3, 5, 7));
    expect(every(2, 8, 0.29)).toEqual(at(1, 3));
    expect(every(1, 4, 0.6)).toEqual(at(0, 1, 2, 3));
    expect(every(1, 4, 0.59)).toEqual(at(0, 1));
  });

  it('begin a run of their own beyond five slices, after a rest, and after two measures', () => {
    expect(every(5, 20, 0.1)).toEqual(at(4, 9));
    expect(every(6, 24, 0.05)).toEqual(at(5, 11, 17, 23));
    expect(every(2, 10, 0.1, { 4: { free: 0.15 } })).toEqual(at(1, 3, 5, 7));
    expect(every(2, 10, 0.1, { 4: { free: 0.14 } })).toEqual(at(1, 3));
    const later = (measure: number) => Object.fromEntries([6, 7, 8, 9].map((place) => [place, { measure }]));
    expect(every(2, 10, 0.1, later(2))).toEqual(at(1, 3));
    expect(every(2, 10, 0.1, later(3))).toEqual(at(1, 3, 7, 9));
  });

  it('keep the end of a rise with it', () => {
    const slices = Array.from({ length: 12 }, () => ({ seconds: 0.02 }));
    const cues: LayerCues = slices.map(() => undefined);
    cues[1] = 'wrist-rises';
    cues[9] = 'wrist-level';
    expect(told(slices, cues)).toEqual(['1: wrist-rises', '9: wrist-level']);
  });
});
