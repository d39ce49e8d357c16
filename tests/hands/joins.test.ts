import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { playedFlow } from '#core/hands/joins.js';
import { add, fraction } from '#core/numeric/fraction.js';
import type { Part } from '#core/score/model.js';
import { Clock } from '#core/score/tempo.js';
import { happenings, lineOf } from '../fingering/lines.js';
import { attributes, note, onePart, readFixture, readText } from '../musicxml/read-source.js';

describe('flow of a line', () => {
  const flowOf = (text: string) => {
    const { score } = readText(text);
    const [line] = buildLines(score).lines;
    return playedFlow(line!, score.parts[0]!, new Clock(score.tempo));
  };
  const repeat = (direction: string) => `<barline><repeat direction="${direction}"/></barline>`;
  const notes = (...names: string[]) => names.map((name) => note(name, 4)).join('');

  it('finds the joins and cuts of endings, dal segno and coda', () => {
    const { score } = readFixture('jumps.musicxml');
    const [line] = buildLines(score).lines;
    const { joins, cuts } = playedFlow(line!, score.parts[0]!, new Clock(score.tempo))!;
    expect(joins.map(({ from, to }) => `${from}-${to}`)).toEqual(['2-1', '1-3', '5-1', '4-6']);
    expect([...cuts]).toEqual([3, 6]);
    for (const { seconds, free } of joins) {
      expect(seconds).toBeCloseTo(2 * (60 / 90), 6);
      expect(free).toBeCloseTo(0, 6);
    }
  });

  it('is none where all is played as printed', () => {
    expect(flowOf(onePart([`${attributes(4, 1)}${notes('C4', 'D4')}`, notes('E4')]))).toBeUndefined();
  });

  it('counts the rests of a join, and a join once however often it is played', () => {
    const rest = '<note><rest/><duration>8</duration></note>';
    const times = `<barline><repeat direction="backward" times="9"/></barline>`;
    const text = onePart([`${attributes(4, 1)}${repeat('forward')}${notes('C4', 'G4')}${rest}${times}`]);
    const { joins, cuts } = flowOf(text)!;
    expect(joins).toHaveLength(1);
    expect(joins[0]).toMatchObject({ from: 1, to: 0 });
    expect(joins[0]!.seconds).toBeCloseTo(3 * (60 / 90), 6);
    expect(joins[0]!.free).toBeCloseTo(2 * (60 / 90), 6);
    expect(cuts.size).toBe(0);
  });

  it('joins and cuts within a measure', () => {
    const inner = (direction: string) => repeat(direction).replace('<barline', '<barline location="middle"');
    const text = onePart([
      attributes(4, 1) + notes('C4', 'D4') + inner('backward') + notes('E4', 'F4'),
      notes('G4') + inner('forward') + notes('A4', 'B4') + repeat('backward'),
    ]);
    const { joins, cuts } = flowOf(text)!;
    expect(joins.map(({ from, to }) => [from, to])).toEqual([
      [1, 0],
      [6, 5],
    ]);
    for (const { seconds } of joins) expect(seconds).toBeCloseTo(60 / 90, 6);
    expect(cuts.size).toBe(0);
  });

  it('stays small for a long unfolding', () => {
    const measures = Array.from({ length: 400 }, (_, at) => ({
      start: fraction(at * 4),
      length: fraction(4),
      index: at,
    }));
    const events = fc.sample(happenings({ keys: 1, holds: 0 }, 400, 400), { numRuns: 1, seed: 3 })[0]!;
    const line = lineOf('right', events);
    const spread = { ...line, slices: line.slices.map((slice, measure) => ({ ...slice, measure })) };
    const once = measures.map(({ index, start }) => ({
      measure: index,
      from: start,
      to: add(start, fraction(4)),
    }));
    const part = { measures, playingOrder: Array.from({ length: 20 }, () => once).flat() } as unknown as Part;
    const clock = new Clock([{ at: fraction(0), quartersPerMinute: 120 }]);
    const { joins } = playedFlow(spread, part, clock)!;
    expect(joins.map(({ from, to }) => [from, to])).toEqual([[399, 0]]);
  });
});
