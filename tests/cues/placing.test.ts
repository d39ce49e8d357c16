import { describe, expect, it } from 'vitest';
import { planCues } from '#core/cues/cues.js';
import type { CueKey } from '#core/cues/keys.js';
import type { LayerCues } from '#core/cues/layer-cues.js';
import { runsWithRoom } from '#core/cues/placing/crowds.js';
import { cuesWithRoom, Room } from '#core/cues/placing/room.js';
import { cueWording } from '#core/cues/wording.js';
import { arms, type Made, made } from './made-plans.js';

// Eighth notes: 2.5 letters each. "out" takes 3 and a gap of 2, and so two notes; "over the" four.

const own = { 'arm-right': 'arm right', 'arm-left': 'arm left' };
const wording = cueWording('en', own);
const still = (count: number): Made[] => Array.from({ length: count }, () => ({}));

describe('crossings in a crowd', () => {
  const told = (there: readonly number[], runs: readonly (readonly number[])[], quarters: number) => {
    const { line } = made(still(24));
    const slices = line.slices.map((slice, at) => ({ ...slice, onset: { num: at * 4 * quarters, den: 4 } }));
    const others = slices.map((_, at): CueKey[] => (there.includes(at) ? ['out'] : []));
    const crossings = slices.map((): CueKey => 'over-thumb');
    return runsWithRoom({ ...line, slices }, wording, runs, crossings, others).flat();
  };

  it('give way with their whole run, where three texts stand over each other on quick notes', () => {
    // Three letters and two reach over two notes of 1.5.
    expect(told([4, 5], [[6, 9], [14]], 0.25)).toEqual([14]);
    expect(told([5, 6], [[4, 9], [14]], 0.25)).toEqual([14]);
    expect(told([4, 6], [[5, 9]], 0.25)).toEqual([]);
    expect(told([5, 7], [[4, 9]], 0.25)).toEqual([4, 9]);
    expect(told([], [[4], [5], [6]], 0.25)).toEqual([4, 6]);
  });

  it('and on eighths where four do', () => {
    expect(told([5, 6], [[4, 9]], 0.5)).toEqual([4, 9]);
    expect(told([5, 6, 7], [[4, 9]], 0.5)).toEqual([]);
    expect(told([3, 5, 6], [[4, 9]], 0.5)).toEqual([]);
    expect(told([3, 5, 6], [[4, 9]], 2)).toEqual([4, 9]);
  });
});

describe('cues of another layer', () => {
  const printed = (there: Readonly<Record<number, CueKey>>, cues: Readonly<Record<number, CueKey>>) => {
    const { line } = made(still(24));
    const bySlice = (keys: Readonly<Record<number, CueKey>>): LayerCues =>
      Array.from({ length: 24 }, (_, at) => keys[at]);
    const room = new Room(
      line,
      wording,
      bySlice(there).map((key) => (key ? [key] : [])),
    );
    const all = cuesWithRoom(line, room, bySlice(cues));
    return Object.fromEntries([...all.entries()].filter(([, key]) => key));
  };

  it('give way where they would reach over a text or under one', () => {
    // "arm right": nine letters and two, five notes.
    expect(printed({ 8: 'out' }, { 2: 'arm-right', 11: 'arm-left' })).toEqual({
      2: 'arm-right',
      11: 'arm-left',
    });
    expect(printed({ 8: 'out' }, { 4: 'arm-right' })).toEqual({});
    expect(printed({ 8: 'out' }, { 9: 'arm-right' })).toEqual({});
    // At one note the two are one text.
    expect(printed({ 8: 'out' }, { 8: 'arm-right' })).toEqual({ 8: 'arm-right' });
  });

  it('give way to those before them', () => {
    expect(printed({}, { 2: 'arm-right', 4: 'arm-left', 7: 'arm-right' })).toEqual({
      2: 'arm-right',
      7: 'arm-right',
    });
  });

  it('tell of a rise of the wrist with its end or not at all', () => {
    expect(printed({}, { 2: 'wrist-rises', 8: 'wrist-level' })).toEqual({
      2: 'wrist-rises',
      8: 'wrist-level',
    });
    expect(printed({ 9: 'out' }, { 2: 'wrist-rises', 8: 'wrist-level' })).toEqual({});
    expect(printed({ 3: 'out' }, { 2: 'wrist-rises', 8: 'wrist-level' })).toEqual({});
    expect(printed({}, { 2: 'wrist-rises', 8: 'wrist-rises', 14: 'wrist-level' })).toEqual({
      2: 'wrist-rises',
      8: 'wrist-rises',
      14: 'wrist-level',
    });
  });

  it('tell of no side of the roll twice in a row', () => {
    expect(printed({ 8: 'out' }, { 2: 'turn-thumb', 8: 'turn-fifth', 14: 'turn-thumb' })).toEqual({
      2: 'turn-thumb',
      8: 'turn-fifth',
      14: 'turn-thumb',
    });
    expect(printed({ 9: 'out' }, { 2: 'turn-thumb', 7: 'turn-fifth', 14: 'turn-thumb' })).toEqual({
      2: 'turn-thumb',
    });
  });

  it('have all room where their layer is alone', () => {
    const { line, plan } = made(arms([0, 50, 0, 50, 0]));
    const count = (layers: readonly ('depth' | 'carry')[]) =>
      planCues(line, plan, { language: 'en', density: 'every', layers, wording: own }).length;
    expect(count(['carry'])).toBe(4);
    expect(count(['depth', 'carry'])).toBe(1);
  });
});
