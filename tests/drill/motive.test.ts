import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { drill } from '#core/drill/drill.js';
import type { DrillOptions } from '#core/drill/options.js';
import { readLines } from '#core/read-lines.js';
import type { Hand } from '#core/score/model.js';
import { schema } from '../conformance/schema.js';

const FIXTURES = fileURLToPath(new URL('../../fixtures/', import.meta.url));
const score = (name: string) => readFileSync(`${FIXTURES}${name}`, 'utf8');
const validate = schema();

/** Keys struck by a hand, onset by onset. */
function keysOf(output: string, hand: Hand): readonly (readonly number[])[] {
  const { lines } = readLines(output);
  return lines
    .find((own) => own.line.hand === hand)!
    .line.slices.map(({ struck }) => struck.map(({ key }) => key));
}

const MAJOR = [0, 2, 4, 5, 7, 9, 11];
const onMajor = (tonic: number, place: number) =>
  tonic + 12 * Math.floor(place / 7) + MAJOR[((place % 7) + 7) % 7]!;

describe('a motive of degrees', () => {
  const degrees = [1, 3, '#4', [1, 5], 0];
  const places = [[0], [2], [3], [0, 4], [-1]];

  it('moves along the scale, its alterations with it', () => {
    const { output } = drill({ motive: { degrees }, keys: ['D'], steps: 4, start: 4 });
    const expected = [0, 1, 2, 3].flatMap((shift) =>
      places.map((own, nth) => own.map((place) => onMajor(62, place + shift) + (nth === 2 ? 1 : 0))),
    );
    expect(keysOf(output, 'right')).toEqual(expected);
    expect(keysOf(output, 'left')).toEqual(expected.map((keys) => keys.map((key) => key - 12)));
    expect(validate(output)).toEqual([]);
  });

  it('moves by semitones, the same intervals on each', () => {
    const { output } = drill({ motive: { degrees }, keys: ['Eb'], sequence: 'chromatic', start: 4 });
    const expected = Array.from({ length: 13 }, (_, up) =>
      places.map((own, nth) => own.map((place) => onMajor(63 + up, place) + (nth === 2 ? 1 : 0))),
    ).flat();
    expect(keysOf(output, 'right')).toEqual(expected);
  });

  it('has its own rhythm and rests, unless another one is asked for', () => {
    const motive = { degrees: [1, null, 3], rhythm: ['quarter', 'eighth', 'eighth'] };
    const own = drill({ motive, steps: 2 }).output;
    expect(own.match(/<type>quarter<\/type>/g)!.length).toBeGreaterThanOrEqual(4);
    const other = drill({ motive, steps: 2, rhythms: [['sixteenth']] }).output;
    expect(other).toContain('<type>16th</type>');
  });

  it.each<[string, DrillOptions, RegExp]>([
    ['empty', { motive: { degrees: [] } }, /motive.degrees: \[\] is not allowed/],
    ['of rests', { motive: { degrees: [null] } }, /motive: it has no notes/],
    ['no degree', { motive: { degrees: ['do'] } }, /"do" is not allowed/],
    ['off the keyboard', { motive: { degrees: [1, 29] }, start: 6 }, /lies beyond the keyboard/],
    ['of two kinds', { motive: { degrees: [1] }, kinds: ['major', 'dorian'] }, /one kind of scale/],
    ['on a scale without seven notes', { motive: { degrees: [1] }, kinds: ['whole-tone'] }, /of seven notes/],
    [
      'beside patterns',
      { motive: { degrees: [1] }, patterns: ['scales'] },
      /patterns: does not go with a motive/,
    ],
    ['steps alone', { steps: 3 }, /steps: speaks of a motive/],
    ['and a study', { motive: { degrees: [1] }, study: { score: '' } }, /not both|EMPTY|empty/],
  ])('%s is refused in one line', (_, options, message) => {
    expect(() => drill(options)).toThrow(message);
  });
});

describe('the study of a passage', () => {
  const file = 'scores/kuhlau-op20-1-1.musicxml';
  const measures = { from: '12', to: '14' };
  const { output, contents } = drill({ study: { score: score(file), measures }, keys: ['C', 'G', 'Eb'] });
  const source = readLines(score(file)).lines;
  const struckIn = (hand: Hand) =>
    source
      .find(({ line }) => line.hand === hand)!
      .line.slices.filter(({ measure }) => measure >= 11 && measure <= 13)
      .map(({ struck }) => struck.map(({ key }) => key));

  it('begins with the passage itself', () => {
    for (const hand of ['right', 'left'] as const) {
      const own = struckIn(hand);
      expect(own.length).toBeGreaterThan(3);
      expect(keysOf(output, hand).slice(0, own.length)).toEqual(own);
    }
    expect(contents.map(({ heading }) => heading)).toEqual([
      'The passage',
      'In other rhythms',
      'From beat to beat',
      'G major',
      'E flat major',
    ]);
    expect(validate(output)).toEqual([]);
  });

  it('ends with the passage in the other keys, not further than a tritone away', () => {
    for (const hand of ['right', 'left'] as const) {
      const own = struckIn(hand);
      const all = keysOf(output, hand);
      const moved = (by: number) => own.map((keys) => keys.map((key) => key + by));
      expect(all.slice(-own.length)).toEqual(moved(3));
      expect(all.slice(-2 * own.length, -own.length)).toEqual(moved(-5));
    }
  });

  it('takes key, metre and tempo from the piece', () => {
    const demo = score('demo/kelp-street-tunes.musicxml');
    const first = drill({ motive: { score: demo, measures: { from: '1', to: '1' } }, steps: 1 }).output;
    const written = (text: string, name: string) => new RegExp(`<${name}>([^<]*)</${name}>`).exec(text)?.[1];
    for (const name of ['fifths', 'beats', 'beat-type'])
      expect(written(first, name)).toBe(written(demo, name));
  });

  it('sets a passage without metre in 4/4', () => {
    const free = score('demo/kelp-street-tunes.musicxml').replace(
      /<time>[\s\S]*?<\/time>/,
      '<time><senza-misura/></time>',
    );
    const { output } = drill({ motive: { score: free, measures: { from: '1', to: '1' } }, steps: 1 });
    expect(output).toMatch(/<beats>4<\/beats>\s*<beat-type>4</);
  });

  it.each<[string, DrillOptions, RegExp]>([
    [
      'no such measure',
      { study: { score: score(file), measures: { from: '99', to: '99' } } },
      /runs from 1 to 80/,
    ],
    ['no score', { study: { score: '<x/>' } }, /./],
    ['nothing played', { study: { score: score(file).replaceAll(/<note[\s\S]*?<\/note>/g, '') } }, /./],
  ])('%s is refused', (_, options, message) => {
    expect(() => drill(options)).toThrow(message);
  });
});
