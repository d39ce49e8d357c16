import { carryLine, depthRibbon, HandlineError, handModel, keyboardView, planMotion } from '@handline/core';
import fc from 'fast-check';
import { XmlDocument } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import { LANGUAGE_CODES } from '#core/options/options.js';
import { steps } from '../motion/arbitrary.js';
import { lineOf, melody, mirrored, type Step } from '../motion/lines.js';
import { rounds } from '../rounds.js';

const HAND = handModel();
const language = fc.constantFrom(...LANGUAGE_CODES);

function planned(hand: 'right' | 'left', of: readonly Step[]) {
  const { line, fingers } = lineOf(hand, of);
  return { line, plan: planMotion(line, fingers, HAND) };
}

/** All pictures of a line, its slices 5 mm apart. */
function pictures(
  hand: 'right' | 'left',
  of: readonly Step[],
  options: Record<string, string> = {},
): string[] {
  const { line, plan } = planned(hand, of);
  const places = line.slices.map(({ index }) => ({ slice: index, x: 10 + 5 * index }));
  const wide = { width: 180, ...options };
  return [
    depthRibbon(line, plan, places, wide),
    carryLine(line, plan, places, wide),
    ...line.slices.map(({ index }) => keyboardView(line, plan, index, options)),
  ];
}

function titleOf(svg: string): string {
  const document = XmlDocument.fromString(svg);
  const title = document.get('/*[local-name()="svg"]/*[local-name()="title"]')?.content ?? '';
  document.dispose();
  return title;
}

/** Numbers of one attribute of the elements of a class, in the order of the picture. */
function numbers(svg: string, name: string, kind: string): number[] {
  const elements = [...svg.matchAll(/<\w+ [^>]*>/g)].filter(([tag]) => tag.includes(` class="${kind}"`));
  return elements.map(([tag]) => Number(new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1]));
}

describe('every picture', () => {
  it('is well-formed, has a title and a description in its language, and finite numbers only', () => {
    fc.assert(
      fc.property(steps(6), fc.constantFrom('right', 'left'), language, (of, hand, own) => {
        for (const svg of pictures(hand, of, { language: own })) {
          expect(titleOf(svg)).not.toBe('');
          expect(svg).toMatch(/<desc>[^<{}]+<\/desc>/);
          expect(svg).not.toMatch(/NaN|Infinity|undefined|[{}]/);
          expect(svg).toMatch(/^<svg [^>]* width="[\d.]+mm" height="[\d.]+mm" viewBox="0 0 [\d.]+ [\d.]+"/);
          expect(svg).toContain(`xml:lang="${own}"`);
        }
      }),
      rounds(100),
    );
  });

  it('keeps any title as text, in whatever direction it is read', () => {
    const texts = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 30 }),
      fc.constantFrom('<script>alert(1)</script>', '"]]>&amp;', 'תרגיל "א"', 'x'.repeat(500)),
    );
    fc.assert(
      fc.property(texts, (title) => {
        for (const svg of pictures('right', [{ keys: [60], fingers: [1] }], { title })) {
          const kept = titleOf(svg);
          // What XML cannot hold is replaced sign by sign; a carriage return is read as a line feed.
          const plain = [...title].map((sign) =>
            /(?![\t\n\r])[\p{Cc}\p{Cs}\ufffe\uffff]/u.test(sign) ? '\ufffd' : sign,
          );
          expect(kept.replaceAll(/\r\n?/g, '\n')).toBe(plain.join('').replaceAll(/\r\n?/g, '\n'));
          expect(svg).toContain('direction="ltr"');
        }
      }),
      rounds(100),
    );
  });
});

describe('depthRibbon', () => {
  // G major over an octave, the thumb passing once.
  const scale = melody('right', [67, 69, 71, 72, 74, 76, 78, 79], '12312345');
  const plan = planMotion(scale.line, scale.fingers, HAND);
  const places = scale.line.slices.map(({ index }) => ({ slice: index, x: 20 + 11.5 * index }));
  const svg = depthRibbon(scale.line, plan, places, { width: 120 });

  it('has one mark for each slice, in or out where the plan moves by 5 mm', () => {
    const marks = [...svg.matchAll(/<(?:circle|path) [^>]*class="(stays|in|out)"[^>]*data-slice="(\d+)"/g)];
    const expected = plan.slices.map(({ depthChange }, at) => [
      Math.abs(depthChange) < 5 ? 'stays' : depthChange > 0 ? 'in' : 'out',
      `${at}`,
    ]);
    expect(marks.map(([, kind, slice]) => [kind, slice])).toEqual(expected);
    expect(expected.flat()).toEqual(expect.arrayContaining(['in', 'out']));
  });

  it('puts its marks where it is told, deeper ones higher', () => {
    const way = /<path d="([^"]*)" class="way"/.exec(svg)![1]!;
    const points = [...way.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
    expect(points.map(([x]) => x)).toEqual(places.map(({ x }) => x));
    const depths = plan.slices.map(({ depth }) => depth);
    for (let one = 0; one < points.length; one++) {
      for (let other = 0; other < points.length; other++) {
        if (depths[one]! > depths[other]!) expect(points[one]![1]).toBeLessThan(points[other]![1]!);
      }
    }
  });

  it('marks the passing thumb once, with its fingers', () => {
    expect(svg.match(/class="under"[^>]*>3–1</g)).toHaveLength(1);
    expect(svg).toContain('crossings: 1.');
  });

  it('breaks the line where the hand is off the keys', () => {
    const rest = planned('right', [
      { keys: [60], fingers: [1] },
      { keys: [62], fingers: [2] },
      { keys: [72], fingers: [5], free: 0.5 },
    ]);
    const at = [10, 20, 30].map((x, slice) => ({ slice, x }));
    const broken = depthRibbon(rest.line, rest.plan, at, { width: 40 });
    expect(broken.match(/class="way"/g)).toHaveLength(1);
    expect(broken.match(/class="lifted"/g)).toHaveLength(1);
  });

  it('names the part before the hand, a long name cut in its middle, and prints no digits on it', () => {
    const of = (part: string, x = 0) => {
      const moved = places.map((place) => ({ ...place, x: place.x + x }));
      return depthRibbon(scale.line, plan, moved, { width: 200, part });
    };
    expect(of('Secondo & co')).toContain('>Secondo &amp; co, r.h. ↑ in<');
    expect(of('Secondo & co')).toContain('<title>Forearm in and out, Secondo &amp; co, right hand</title>');
    const long = of('Pianoforte on the left side of the stage');
    expect(long).toContain('>Pianoforte…the stage, r.h. ↑ in<');
    expect(long).toContain('Pianoforte on the left side of the stage, right hand</title>');
    const down = melody('right', [79, 78, 76, 74, 72, 71, 69, 67], '54321321');
    const over = planMotion(down.line, down.fingers, HAND);
    const digits = (part: string, x: number) =>
      depthRibbon(
        down.line,
        over,
        [4, 5].map((slice) => ({ slice, x: x + slice })),
        { width: 200, part },
      ).match(/class="over"[^>]*>1–3</g);
    expect(digits('', 20)).toHaveLength(1);
    expect(digits('Pianoforte', 20)).toBeNull();
    expect(digits('Pianoforte', 40)).toHaveLength(1);
    const view = keyboardView(scale.line, plan, 0, { part: 'Primo' });
    expect(view).toContain('<title>Keyboard, Primo, right hand: thumb on G</title>');
    expect(carryLine(scale.line, plan, places, { width: 200, part: 'Primo' })).toContain(
      '>Primo, r.h. ↑ right<',
    );
  });

  it('says so where the hand has no notes', () => {
    expect(depthRibbon(scale.line, plan, [], { width: 50 })).toContain('No notes of this hand here.');
    expect(carryLine(scale.line, plan, [], { width: 50 })).toContain('No notes of this hand here.');
  });

  it('refuses what it cannot draw, in one line that names it', () => {
    const bad: (() => string)[] = [
      () => depthRibbon(scale.line, plan, [{ slice: 8, x: 1 }], { width: 50 }),
      () => depthRibbon(scale.line, plan, [{ slice: 0, x: Number.NaN }], { width: 50 }),
      () => depthRibbon(scale.line, plan, [...places].reverse(), { width: 50 }),
      () => depthRibbon(scale.line, plan, places, { width: 0 }),
      () => depthRibbon(scale.line, plan, places, { width: 50, range: [60, 60] }),
      () => carryLine(scale.line, plan, places, { width: 50, language: 'xx' as 'en' }),
      () => keyboardView(scale.line, plan, -1),
      () => keyboardView(scale.line, plan, 0, { scale: Number.POSITIVE_INFINITY }),
      () => keyboardView({} as typeof scale.line, plan, 0),
    ];
    for (const draw of bad) {
      expect(draw).toThrow(HandlineError);
      expect(draw).toThrow(/^\w+: .* is not allowed; give .*$/);
    }
  });
});

describe('keyboardView', () => {
  it('has a ring for every finger in use, on its key at its depth', () => {
    fc.assert(
      fc.property(steps(4), fc.constantFrom('right', 'left'), (of, hand) => {
        const { line, plan } = planned(hand, of);
        line.slices.forEach(({ index }) => {
          const svg = keyboardView(line, plan, index, { scale: 1 });
          const { fingers } = plan.slices[index]!;
          const ys = numbers(svg, 'cy', 'strikes');
          expect(ys).toHaveLength(fingers.length);
          // Depth grows upwards: a tip 10 mm deeper lies 10 mm higher on the page.
          fingers.forEach(({ tip }, nth) => {
            expect(ys[nth]! - ys[0]!).toBeCloseTo(fingers[0]!.tip - tip, 1);
          });
        });
      }),
      rounds(100),
    );
  });

  it('of the mirrored line is the mirrored picture', () => {
    fc.assert(
      fc.property(steps(5), (of) => {
        const right = planned('right', of);
        const left = planned('left', mirrored(of));
        right.line.slices.forEach(({ index }) => {
          const one = keyboardView(right.line, right.plan, index);
          const other = keyboardView(left.line, left.plan, index);
          const width = (svg: string) => Number(/ width="([\d.]+)mm"/.exec(svg)![1]);
          expect(width(other)).toBeCloseTo(width(one), 1);
          for (const kind of ['strikes', 'elsewhere', 'white-key', 'black-key']) {
            const name = kind.endsWith('key') ? 'x' : 'cx';
            const sizes = numbers(one, 'width', kind);
            const xs = numbers(one, name, kind).map((x, nth) => width(one) - x - (sizes[nth] || 0));
            const sorted = (list: number[]) => [...list].sort((a, b) => a - b);
            const ours = sorted(numbers(other, name, kind));
            sorted(xs).forEach((x, nth) => {
              expect(ours[nth]).toBeCloseTo(x, 1);
            });
            expect(ours).toHaveLength(xs.length);
          }
        });
      }),
      rounds(60),
    );
  });

  it('shows the way of a thumb that passes, before it plays and as it plays', () => {
    const { line, fingers } = melody('right', [67, 69, 71, 72, 74, 76, 78, 79], '12312345');
    const plan = planMotion(line, fingers, HAND);
    const shows = line.slices.map(({ index }) => keyboardView(line, plan, index).includes('thumb-way'));
    expect(shows).toEqual([false, false, true, true, false, false, false, false]);
    expect(keyboardView(line, plan, 2)).toContain('right hand: 3 on B');
    expect(keyboardView(line, plan, 3)).toContain('thumb on C');
    expect(keyboardView(line, plan, 3)).toContain('the thumb passes behind the finger that plays');
  });

  it('tells a held finger from one that strikes, without colour', () => {
    const { line, plan } = planned('right', [
      { keys: [60], fingers: [1] },
      { keys: [67], fingers: [5], held: [{ key: 60, finger: 1, since: 0 }] },
    ]);
    const svg = keyboardView(line, plan, 1);
    expect(svg.match(/<circle [^>]*class="strikes"[^>]*>/g)!.join()).not.toContain('dasharray');
    expect(svg.match(/<circle [^>]*class="holds"[^>]*>/g)!.join()).toContain('dasharray');
    expect(svg).toContain('5 on G, thumb holds C');
  });
});
