import { annotate } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, note, onePart, rest } from '../musicxml/read-source.js';

const TEMPO = '<sound tempo="60"/>';
// Quarter notes to and from a black key, which ask for moves in and out.
const SHARPS = ['B4', 'C#5', 'D5', 'F#5'];
const bar = (pitches: readonly string[]) => pitches.map((pitch) => note(pitch, 4)).join('');
const cuesOf = (text: string, options = {}) =>
  annotate(text, { layers: ['depth'], density: 'every', ...options }).report.lines[0]!.slices;

describe('cues in chosen measures', () => {
  const text = onePart([attributes() + TEMPO + bar(SHARPS), ...Array.from({ length: 5 }, () => bar(SHARPS))]);

  it('are those that their reader needs, who begins there and has been told of nothing', () => {
    const whole = cuesOf(text).filter(({ cue }) => cue !== undefined);
    const chosen = cuesOf(text, { measures: { from: '3', to: '4' } });
    const told = chosen.flatMap(({ measure, cue }) => (cue === undefined ? [] : [`${measure}: ${cue}`]));
    // In the whole score they have all been told of in full by then.
    expect(whole.filter(({ measure }) => measure === '3').map(({ cue }) => cue)).not.toContain('forearm in');
    expect(told.length).toBeGreaterThan(2);
    expect(new Set(chosen.map(({ measure }) => measure))).toEqual(new Set(['3', '4']));
    for (const way of [/out/, /in/]) expect(told.find((one) => way.test(one))).toContain('forearm');
    // Nothing is said at the first note: there the reader begins.
    expect(chosen[0]!.cue).toBeUndefined();
    const { output } = annotate(text, {
      layers: ['depth'],
      density: 'every',
      measures: { from: '3', to: '4' },
    });
    expect([...output.matchAll(/<words/g)].length).toBe(told.length);
  });

  it('are all where all measures are chosen', () => {
    const texts = (options = {}) => cuesOf(text, options).map(({ cue }) => cue);
    expect(texts({ measures: { from: '1', to: '6' } })).toEqual(texts());
    expect(
      cuesOf(onePart([attributes() + rest(16), bar(SHARPS)]), { measures: { from: '1', to: '1' } }),
    ).toEqual([]);
  });
});

describe('cues at a second ending', () => {
  const ending = (number: string, type: string) => `<ending number="${number}" type="${type}"/>`;
  const left = (content: string) => `<barline location="left">${content}</barline>`;
  const right = (content: string) => `<barline location="right">${content}</barline>`;
  const score = (endings: boolean) =>
    onePart([
      attributes() + TEMPO + bar(['C5', 'D5', 'E5', 'D5']),
      // Up to the second ending's first note the thumb would have to pass behind 3.
      (endings ? left(ending('1', 'start')) : '') +
        bar(['C5', 'D5', 'E5', 'F5']) +
        (endings ? right(`${ending('1', 'stop')}<repeat direction="backward"/>`) : ''),
      (endings ? left(ending('2', 'start')) : '') +
        bar(['G5', 'A5', 'B5', 'C6']) +
        (endings ? right(ending('2', 'stop')) : ''),
    ]);
  const given = (text: string) => {
    const digits = [1, 2, 3, 2, 1, 2, 3, 4, 1, 2, 3, 4];
    let at = 0;
    return text.replaceAll(
      '</note>',
      () => `<notations><technical><fingering>${digits[at++]}</fingering></technical></notations></note>`,
    );
  };

  it('are none for a move from the first ending, which is never made', () => {
    const [printed, played] = [false, true].map((endings) =>
      cuesOf(given(score(endings)), { layers: ['depth', 'crossing'], density: 'every' }),
    );
    expect(printed![8]!.crossing).toBe('thumb-passing 4-1 up');
    expect(printed![8]!.cue).toContain('thumb passes');
    expect(played![8]!.crossing).toBeUndefined();
    expect(played![8]!.cue).toBeUndefined();
  });
});

describe('cues on the pages of the file', () => {
  it('are in full at the first of each way on a page', () => {
    const pages = (...starts: readonly number[]) =>
      cuesOf(
        onePart(
          Array.from(
            { length: 6 },
            (_, at) =>
              (starts.includes(at) ? '<print new-page="yes"/>' : '') +
              (at === 0 ? attributes() + TEMPO : '') +
              bar(SHARPS),
          ),
        ),
      ).flatMap(({ measureIndex, cue }) => (cue?.startsWith('forearm') ? [measureIndex] : []));
    expect(new Set(pages())).toEqual(new Set([0]));
    expect(new Set(pages(2, 5))).toEqual(new Set([0, 2, 5]));
    for (const start of [0, 2, 5]) expect(pages(2, 5).filter((at) => at === start)).toHaveLength(2);
  });
});
