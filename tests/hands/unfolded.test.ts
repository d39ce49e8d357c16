import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { playedFlow } from '#core/hands/joins.js';
import { Clock } from '#core/score/tempo.js';
import { flowOf, unfolded } from '../fingering/restated/joins.js';
import { attributes, note, onePart, readText, rest } from '../musicxml/read-source.js';
import { rounds } from '../rounds.js';

describe('the joins of a piece', () => {
  const barline = (side: string, content: string) => `<barline location="${side}">${content}</barline>`;
  const STEPS = ['C4', 'D4', 'E4', 'F4', 'G4', 'A4', 'B4', 'C5'];
  /** What may stand at a measure's start, within it and at its end. */
  const measure = fc.record({
    notes: fc.array(fc.nat(7), { minLength: 0, maxLength: 4 }),
    rests: fc.nat(2),
    start: fc.constantFrom(
      '',
      '',
      '',
      '<repeat direction="forward"/>',
      '<segno/>',
      '<coda/>',
      '<ending number="1" type="start"/>',
    ),
    middle: fc.constantFrom(
      '',
      '',
      '',
      '',
      '<repeat direction="backward"/>',
      '<repeat direction="forward"/>',
    ),
    end: fc.constantFrom(
      '',
      '',
      '<repeat direction="backward"/>',
      '<repeat direction="backward" times="3"/>',
      '<ending number="1" type="stop"/><repeat direction="backward"/>',
    ),
    jump: fc.constantFrom(
      '',
      '',
      '',
      '',
      '<sound dacapo="yes"/>',
      '<sound dalsegno=""/>',
      '<sound fine="yes"/>',
      '<sound tocoda=""/>',
    ),
    tempo: fc.constantFrom('', '', '<sound tempo="60"/>', '<sound tempo="150"/>'),
  });

  it('are the neighbours in playing that are none in print, with the time between them', () => {
    let joined = 0;
    fc.assert(
      fc.property(fc.array(measure, { minLength: 1, maxLength: 8 }), (measures) => {
        const text = onePart(
          measures.map(({ notes, rests, start, middle, end, jump, tempo }, at) => {
            const own = notes.map((nth) => note(STEPS[nth]!, 4));
            const silent = rests > 0 ? rest(4 * rests) : '';
            const half = Math.ceil(own.length / 2);
            const inner = middle && own.length > 1 ? barline('middle', middle) : '';
            const content = own.slice(0, half).join('') + inner + own.slice(half).join('') + silent;
            return `${at === 0 ? attributes(4, 1) : ''}${start && barline('left', start)}${tempo}${content}${jump}${end && barline('right', end)}`;
          }),
        );
        const { score } = readText(text);
        const [line] = buildLines(score).lines;
        if (!line) return;
        const [part, clock] = [score.parts[0]!, new Clock(score.tempo)];
        const flow = playedFlow(line, part, clock) ?? { joins: [], cuts: new Set() };
        const own = flowOf(unfolded(line, part, (quarters) => clock.secondsAt(quarters)));
        expect(flow.joins.map(({ from, to }) => [from, to])).toEqual(
          own.joins.map(({ from, to }) => [from, to]),
        );
        flow.joins.forEach(({ seconds, free }, nth) => {
          expect(seconds).toBeCloseTo(own.joins[nth]!.seconds, 9);
          expect(free).toBeCloseTo(own.joins[nth]!.free, 9);
        });
        expect([...flow.cuts].sort()).toEqual([...own.cuts].sort());
        joined += flow.joins.length;
      }),
      rounds(150),
    );
    expect(joined).toBeGreaterThan(100);
  });
});
