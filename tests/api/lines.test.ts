import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  alternatives,
  annotate,
  fingerLine,
  HandlineError,
  handModel,
  planDigits,
  planMotion,
  readLines,
} from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, bytesOf, note, onePart, READ_FIXTURES } from '../musicxml/read-source.js';

const DEMO = readFileSync(
  fileURLToPath(new URL('../../fixtures/demo/kelp-street-tunes.musicxml', import.meta.url)),
);

const MELODY = 'G4 A4 B4 C5 D5 E5 F#5 G5'
  .split(' ')
  .map((name) => note(name, 2))
  .join('');
const ornament = (name: string) => ({ notations: `<ornaments><${name}/></ornaments>` }) as const;
const repeat = '<barline location="right"><repeat direction="backward"/></barline>';

const digit = (finger: number, more = '') =>
  ({ notations: `<technical><fingering>${finger}</fingering>${more}</technical>` }) as const;

describe('fingerLine and planMotion on lines that readLines gives', () => {
  const { lines } = readLines(DEMO);

  it('find what annotate reports', () => {
    const { report } = annotate(DEMO);
    expect(lines).toHaveLength(report.lines.length);
    lines.forEach(({ line, hand, context }, nth) => {
      const { fingering } = fingerLine(line, hand, context);
      const plan = planMotion(line, fingering, hand, context);
      const { slices, depthTravel } = report.lines[nth]!;
      expect(fingering.slices.map(({ struck }) => struck)).toEqual(slices.map(({ fingers }) => fingers));
      expect(plan.slices.map(({ depth }) => depth)).toEqual(slices.map(({ depth }) => depth));
      expect(plan.depthTravel).toBeCloseTo(depthTravel, 6);
    });
  });

  it('go by the span', () => {
    const small = readLines(DEMO, { span: 'small' }).lines[0]!;
    expect(small.hand).toEqual(handModel('small'));
    expect(small.hand.span).toBeLessThan(lines[0]!.hand.span);
  });

  it('give alternatives of which the first is the one that is printed, repeats and ornaments heeded', () => {
    let [repeated, ornamented] = [0, 0];
    const scores = [
      DEMO,
      ...READ_FIXTURES.map(bytesOf),
      onePart([`${attributes(4, 1)}${MELODY}`, `${repeat}${note('E4', 16, ornament('trill-mark'))}`]),
      onePart([
        `${attributes(4, 1)}${note('B4', 16, ornament('turn'))}`,
        `${MELODY}${repeat}`,
        note('C5', 16, ornament('mordent')),
      ]),
    ];
    for (const bytes of scores) {
      for (const { line, hand, context } of readLines(bytes).lines) {
        if (context.flow) repeated++;
        if (context.ornaments) ornamented++;
        const [first, ...others] = alternatives(line, hand, { ...context, count: 3 });
        expect(first).toEqual(fingerLine(line, hand, context).fingering);
        const costs = others.map(({ cost }) => cost);
        expect(costs).toEqual(costs.toSorted((a, b) => a - b));
        const digits = [first!, ...others].map(({ slices }) =>
          slices.map(({ struck, held }) => [struck, held].join()).join(' '),
        );
        expect(new Set(digits).size).toBe(digits.length);
      }
    }
    expect(repeated).toBeGreaterThan(2);
    expect(ornamented).toBeGreaterThan(1);
  });
});

describe('planDigits', () => {
  it('plans the digits of a score as they stand, ours or anybody else’s', () => {
    const { output, report } = annotate(DEMO, { existing: 'replace' });
    const planned = planDigits(output);
    const heads = (nth: number) => planned.lines[nth]!.fingers.slices.flatMap(({ struck }) => struck);
    planned.lines.forEach(({ plan, partId }, nth) => {
      const own = report.lines[nth]!;
      expect(partId).toBe(own.part);
      expect(heads(nth)).toEqual(own.slices.flatMap(({ fingers }) => fingers));
      expect(plan.slices).toHaveLength(own.slices.length);
    });
  });

  it('fingers nothing anew: odd digits stay, keys without one count for nothing', () => {
    const names = ['C4', 'D4', 'E4', 'F4'];
    const score = onePart([
      `${attributes(4, 1)}${names.map((name, nth) => note(name, 4, nth === 2 ? {} : digit(5 - nth))).join('')}`,
    ]);
    const [{ fingers, plan }] = planDigits(score).lines as [ReturnType<typeof planDigits>['lines'][number]];
    expect(fingers.slices.map(({ struck }) => struck[0])).toEqual([5, 4, null, 2]);
    expect(plan.slices.map((slice) => slice.fingers.map(({ finger }) => finger))).toEqual([
      [5],
      [4],
      [],
      [2],
    ]);
    const bare = planDigits(onePart([`${attributes(4, 1)}${note('C4', 16)}`])).lines[0]!;
    expect(bare.plan.depthTravel).toBe(0);
  });

  it('a held key goes over to the finger that is printed as its substitution', () => {
    const held = digit(1, '<fingering substitution="yes">5</fingering>');
    const score = onePart([
      `${attributes(4, 1)}${note('C4', 16, held)}<backup><duration>8</duration></backup>${note('E4', 8, { voice: '2', ...digit(3) })}`,
    ]);
    const { fingers } = planDigits(score).lines[0]!;
    expect(fingers.slices).toEqual([
      { struck: [1], held: [] },
      { struck: [3], held: [5] },
    ]);
  });

  it('refuses what is no score and a bad span', () => {
    expect(() => planDigits('<a/>')).toThrow(HandlineError);
    expect(() => readLines(DEMO, { span: '40th' })).toThrow(/span/);
  });
});
