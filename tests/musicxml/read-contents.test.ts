import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { toNumber } from '#core/numeric/fraction.js';
import { attributes, note, onePart, readText } from './read-source.js';

const tempo = (offset: number, value: number) =>
  `<direction><direction-type><words>x</words></direction-type><offset>${offset}</offset><sound tempo="${value}"/></direction>`;
const onsets = (text: string) => readText(text).score.parts[0]!.notes.map(({ onset }) => toNumber(onset));

describe('what scores contain', () => {
  it('negative offsets of directions, never before the measure', () => {
    const text = onePart([
      attributes() + note('C5', 4) + tempo(-2, 90) + note('D5', 4),
      tempo(-9, 100) + note('E5', 8),
    ]);
    const found = readText(text).score.tempo.map(({ at, quartersPerMinute }) => [
      toNumber(at),
      quartersPerMinute,
    ]);
    expect(found).toEqual([
      [0.5, 90],
      [2, 100],
    ]);
  });

  it('gaps of <forward>, which are silence', () => {
    const text = onePart([
      `${attributes() + note('C5', 4)}<forward><duration>8</duration></forward>${note('D5', 4)}`,
    ]);
    expect(onsets(text)).toEqual([0, 3]);
    const [line] = buildLines(readText(text).score).lines;
    expect(line?.slices[1]).toMatchObject({ held: [], phraseStart: true });
    expect(line?.slices[1]?.free).toBeGreaterThan(0);
  });

  it('tuplets within tuplets, exactly', () => {
    // A triplet of quarters in a half; its second quarter is five sixteenths in the time of four.
    const modified = (actual: number, normal: number) =>
      `<time-modification><actual-notes>${actual}</actual-notes><normal-notes>${normal}</normal-notes></time-modification>`;
    const outer = note('C5', 20, { notations: '' }).replace('<staff>', `${modified(3, 2)}<staff>`);
    const inner = note('D5', 4).replace('<staff>', `${modified(15, 8)}<staff>`);
    const text = onePart([attributes(30) + outer + inner.repeat(5) + outer + note('E5', 60)]);
    const found = readText(text).score.parts[0]!.notes.map(({ onset }) => `${onset.num}/${onset.den}`);
    expect(found).toEqual(['0/1', '2/3', '4/5', '14/15', '16/15', '6/5', '4/3', '2/1']);
  });

  const middle = (direction: string) =>
    `<barline location="middle"><repeat direction="${direction}"/></barline>`;
  const end = '<barline location="right"><repeat direction="backward"/></barline>';
  const fine = '<direction><direction-type><words>Fine</words></direction-type></direction>';
  const daCapo = '<direction><direction-type><words>D.C. al Fine</words></direction-type></direction>';
  const [c, d, e] = [note('C5', 8), note('D5', 8), note('E5', 16)];

  it.each([
    ['an end', [c + middle('backward') + d, e], '0-2 0-4 4-8'],
    ['a beginning', [c + middle('forward') + d, e + end], '0-4 4-8 2-4 4-8'],
    ['end and beginning', [c + middle('backward') + middle('forward') + d, e + end], '0-2 0-4 4-8 2-4 4-8'],
    ['an end two measures on', [e, c + middle('backward') + d], '0-4 4-6 0-4 4-8'],
    ['Fine at an inner barline', [`${c + fine}<barline location="middle"/>${d}`, e + daCapo], '0-4 4-8 0-2'],
    ['Fine within a measure', [c + fine + d, e + daCapo], '0-4 4-8 0-4'],
    ['a barline that says nothing', [`${c}<barline location="middle"/>${d}`, e], '0-4 4-8'],
    ['an end at the start', [middle('backward') + e, e], '0-4 0-4 4-8'],
    ['an end at the end', [c + d + middle('backward'), e], '0-4 0-4 4-8'],
    ['beginnings alone', [c + middle('forward') + d + middle('forward'), e], '0-4 4-8'],
  ])('repeats within a measure: %s', (_, [first = '', second = ''], expected) => {
    const text = onePart([attributes() + first, second]);
    const order = readText(text).score.parts[0]!.playingOrder;
    expect(order.map(({ from, to }) => `${toNumber(from)}-${toNumber(to)}`).join(' ')).toBe(expected);
    expect(clear(annotate(text).output).output).toBe(text);
  });

  it('two pianos and pianos for four hands, a line for every hand', () => {
    const staff = (number: number, pitch: string) =>
      note(pitch, 16, { staff: number, voice: String(number) }) +
      (number < 2 ? '<backup><duration>16</duration></backup>' : '');
    const music = attributes() + staff(1, 'C5') + staff(2, 'C3');
    const one = onePart([music]);
    const [, list = ''] = /(<score-part .*?<\/score-part>)/.exec(one) ?? [];
    const [, part = ''] = /(<part id.*<\/part>)/s.exec(one) ?? [];
    const two = one
      .replace(list, list + list.replace('P1', 'P2'))
      .replace(part, part + part.replace('P1', 'P2'));
    expect(annotate(two).report.lines.map(({ part: id, hand, fingered }) => [id, hand, fingered])).toEqual([
      ['P1', 'right', 1],
      ['P1', 'left', 1],
      ['P2', 'right', 1],
      ['P2', 'left', 1],
    ]);
  });
});
