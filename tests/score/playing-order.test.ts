import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type MeasureFlow, playingOrder } from '#core/score/playing-order.js';

/**
 * Measures by letters with their marks in front and behind: `|:` `:|` (`:3|` three times), `1[` ... ending numbers,
 * `S` segno, `O` coda, `F` fine, `DC`, `DS`, `To`.
 */
function flow(sketch: string): MeasureFlow[] {
  return sketch.split(/\s+/).map((word) => {
    const times = /:(\d*)\|$/.exec(word);
    const endings = /([\d,]+)\[/.exec(word)?.[1]?.split(',').map(Number);
    return {
      ...(word.startsWith('|:') ? { repeatStart: true } : {}),
      ...(times === null ? {} : { repeatEnd: Number(times[1] || 2) }),
      ...(endings === undefined ? {} : { endings }),
      ...(word.includes('S=') ? { segno: '' } : {}),
      ...(word.includes('O=') ? { coda: '' } : {}),
      ...(word.includes('=F') ? { fine: true } : {}),
      ...(word.includes('=DC') ? { daCapo: true } : {}),
      ...(word.includes('=DS') ? { dalSegno: '' } : {}),
      ...(word.includes('=To') ? { toCoda: '' } : {}),
      ...(word.includes('!') ? { afterJump: true } : {}),
    };
  });
}

function played(sketch: string): string {
  const names = sketch.split(/\s+/).map((word) => /[a-z]/.exec(word)?.[0] ?? '?');
  return playingOrder(flow(sketch))
    .map((at) => names[at])
    .join('');
}

describe('the order in which measures are played', () => {
  it.each([
    ['a b c', 'abc'],
    ['|:a b:| c', 'ababc'],
    ['a b:| c', 'ababc'],
    ['a |:b c:|', 'abcbc'],
    ['|:a b:| |:c d:|', 'ababcdcd'],
    ['|:a b:| c d:|', 'ababcdcd'],
    ['|:a:3| b', 'aaab'],
    ['|:a 1[b:| 2[c d', 'abacd'],
    ['|:a 1[b 1[c:| 2[d e', 'abcade'],
    ['|:a 1,2[b:| 3[c', 'ababac'],
    ['|:a 1[b:| 2[c:| 3[d e', 'abacade'],
    ['|:a 1[b:| 2[c:|', 'abac'],
    ['a |:b 1[c:| 2[d |:e f:| g', 'abcbdefefg'],
    ['a:1| b', 'ab'],
    ['a b=F c=DC', 'abcab'],
    ['a S=b c=F d=DS', 'abcdbc'],
    ['a b=To c=DC O=d e', 'abcabde'],
    ['a S=b c=To d=DS O=e', 'abcdbce'],
    ['|:a:| b=F |:c:| d=DC', 'aabccdab'],
    ['|:a 1[b:| 2[c=F d=DC', 'abacdac'],
    ['|:!a!:| b=F c=DC', 'aabcaab'],
    ['a=F b', 'ab'],
    ['a=To b O=c', 'abc'],
    ['a b=DC', 'abab'],
    ['', '?'],
  ])('%s: %s', (sketch, order) => {
    expect(played(sketch)).toBe(order);
  });

  it.each([
    ['a:| b:| c:|', 'aabbcc', 'every repeat goes back to the end of the one before'],
    ['|:a |:b c', 'abc', 'beginnings without an end'],
    ['a=DS b', 'ab', 'a dal segno without a segno'],
    ['a=To b=DC c', 'ababc', 'a coda that is missing'],
    ['1[a 2[b', 'a', 'a second ending that is never reached'],
    ['|:a 1[b:| c', 'abac', 'a first ending alone'],
    ['|:a 2[b c', 'ac', 'a second ending alone'],
  ])('makes the best of %s: %s (%s)', (sketch, order) => {
    expect(played(sketch)).toBe(order);
  });

  const mark = fc.record(
    {
      repeatStart: fc.boolean(),
      repeatEnd: fc.integer({ min: 1, max: 1_000_000 }),
      afterJump: fc.boolean(),
      endings: fc.array(fc.integer({ min: 1, max: 99 }), { maxLength: 3 }),
      daCapo: fc.boolean(),
      dalSegno: fc.constantFrom('', 'x'),
      segno: fc.constantFrom('', 'x', 'y'),
      toCoda: fc.constantFrom('', 'x'),
      coda: fc.constantFrom('', 'x'),
      fine: fc.boolean(),
    },
    { requiredKeys: [] },
  );

  it('always ends, with measures that exist, whatever the marks', () => {
    fc.assert(
      fc.property(fc.array(mark, { maxLength: 40 }), (measures) => {
        const order = playingOrder(measures as MeasureFlow[]);
        expect(order.length).toBeLessThanOrEqual(20 * measures.length);
        for (const at of order) expect(at >= 0 && at < measures.length).toBe(true);
      }),
      { numRuns: 3000 },
    );
  });

  it('is the printed order, each measure once, where nothing is marked', () => {
    const measures = Array.from({ length: 1000 }, () => ({}));
    expect(playingOrder(measures)).toEqual(measures.map((_, at) => at));
  });

  it('takes linear time where every measure has an ending', () => {
    const measures = Array.from({ length: 100_000 }, () => ({ endings: [1], repeatEnd: 2 }));
    expect(playingOrder(measures).length).toBeLessThanOrEqual(2_000_000);
  });
});
