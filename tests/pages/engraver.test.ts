import { annotate } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { loadEngraver } from '../../packages/cli/src/pages/engraver.js';
import { measure, note, scoreOf } from './made.js';

const engraver = await loadEngraver();
const HIGH = note('G', 6) + note('E', 6) + note('C', 6) + note('C', 5);
const CLEF = '<attributes><clef><sign>G</sign><line>2</line></clef></attributes>';
const ending = (location: 'left' | 'right', type: string) =>
  `<barline location="${location}"><ending number="2" type="${type}"/></barline>`;

/** Measures of four notes, or of so many. */
const plain = (count: number, notes = HIGH) =>
  scoreOf(Array.from({ length: count }, (_, nth) => measure(nth + 1, notes)).join(''));
const sizes = (text: string) => engraver.systems(text).map(({ measures }) => measures);

describe('the last system', () => {
  it('is never one measure where the system before has room for it', () => {
    const all = Array.from({ length: 12 }, (_, more) => sizes(plain(14 + more)));
    for (const [nth, own] of all.entries()) {
      expect(own.reduce((sum, count) => sum + count)).toBe(14 + nth);
      expect(own.at(-1)).toBeGreaterThan(1);
    }
    // One of them has a system that takes a measure more than those before.
    expect(all.some((own) => own.at(-1)! > own[0]!)).toBe(true);
  });

  it('stays alone where measures fill a system each', () => {
    expect(sizes(plain(4, HIGH.repeat(12)))).toEqual([1, 1, 1, 1]);
  });
});

it("the number of an ending's bracket that goes on stays clear of the digits below it", () => {
  const measures = Array.from({ length: 24 }, (_, nth) => {
    const [before, after] = [
      nth === 0 ? ending('left', 'start') : '',
      nth === 23 ? ending('right', 'stop') : '',
    ];
    return measure(nth + 1, (nth === 0 ? CLEF : '') + before + HIGH + after);
  });
  const { output } = annotate(scoreOf(measures.join('')), { staff: { right: [1] } });
  const [, ...further] = engraver.systems(output);
  expect(further.length).toBeGreaterThan(1);
  for (const { svg } of further) {
    const [, y, size] = /class="voltaBracket"><text [^>]*?y="([^"]*)".*?font-size="([\d.]+)px">\(2\)/.exec(
      svg,
    )!;
    const [, digitY, digitSize] =
      /class="fing"[^>]*><text [^>]*?y="([^"]*)".*?font-size="([1-9]\d*)px">/.exec(svg)!;
    // A parenthesis of Times reaches 0.17 of its size below the line, a digit 0.68 above it.
    const [bottom, top] = [Number(y) + 0.17 * Number(size), Number(digitY) - 0.68 * Number(digitSize)];
    console.log(`(2): ${bottom.toFixed()} above a digit at ${top.toFixed()}`);
    expect(top - bottom).toBeGreaterThan(Number(digitSize) / 3);
  }
});
