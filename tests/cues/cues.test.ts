import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { type Cue, type CueContext, planCues } from '#core/cues/cues.js';
import { depthMoves } from '#core/cues/depth-cues.js';
import { CUE_LAYERS } from '#core/cues/keys.js';
import { cueWording, LANGUAGES, printedLines } from '#core/cues/wording.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import { planMotion } from '#core/motion/motion.js';
import type { Density, Layer } from '#core/options/options.js';
import { steps } from '../motion/arbitrary.js';
import { type Given, lineOf, melody, mirrored } from '../motion/lines.js';

const LAYERS: readonly Layer[] = ['depth', 'crossing', 'carry', 'contour', 'roll'];
const DENSITIES: readonly Density[] = ['every', 'essential', 'demanding'];

function cues({ line, fingers }: Given, context: Partial<CueContext> = {}): readonly Cue[] {
  const plan = planMotion(line, fingers, handModel());
  return planCues(line, plan, { language: 'en', ...context });
}

const texts = (all: readonly Cue[]) => all.map((cue) => `${cue.slice}: ${cue.text}`);

const G_MAJOR = [55, 57, 59, 60, 62, 64, 66, 67];

describe('cues', () => {
  it('of G major are what a teacher would say: out over two fingers, in for the thumb, out, in from the lean of 3 on', () => {
    const found = cues(melody('right', G_MAJOR, '12312345'), { density: 'every' });
    expect(texts(found)).toEqual(['1: forearm out', '3: thumb passes, forearm in', '4: out', '5: in']);
    expect(found.map(({ end }) => end)).toEqual([2, 3, 4, 6]);
  });

  it('say lean where a small move in is enough', () => {
    const all = (['every', 'essential', 'demanding'] as const).flatMap((density) =>
      cues(melody('right', [62, 64, 65, 67], '1235', 0.5), { density, layers: ['depth'] }),
    );
    for (const { keys } of all) expect(keys).not.toContain('far-in');
    fc.assert(
      fc.property(steps(24), fc.constantFrom(...DENSITIES), (given, density) => {
        const line = lineOf('right', given);
        const plan = planMotion(line.line, line.fingers, handModel());
        for (const { key, direction, travel } of depthMoves(line.line, plan, density)) {
          if (key === 'lean') expect(direction > 0 && travel <= 8).toBe(true);
          if (key === 'in') expect(travel).toBeGreaterThan(8);
        }
      }),
    );
  });

  it('have dashes up to the note that a move of three notes or more serves, where there is room', () => {
    let dashed = 0;
    fc.assert(
      fc.property(steps(40), fc.constantFrom(...DENSITIES), (given, density) => {
        const plain = lineOf('right', given);
        // Programs print what stands at a grace note at its main note.
        const slices = plain.line.slices.map((slice) => ({ ...slice, grace: slice.index % 5 === 4 }));
        const line = { ...plain, line: { ...plain.line, slices } };
        const all = cues(line, { density });
        const moves = depthMoves(line.line, planMotion(line.line, line.fingers, handModel()), density);
        // Eighth notes, two and a half letters each, and a letter's gap.
        const reach = ({ slice, text }: (typeof all)[number]) =>
          slice +
          Math.ceil(
            (1 +
              Math.max(
                ...printedLines(text)
                  .split('\n')
                  .map(({ length }) => length),
              )) /
              2.5,
          );
        const expected = moves.filter(
          ({ slice, end }) =>
            end >= slice + 2 &&
            !slices[slice]!.grace &&
            !slices[end]!.grace &&
            all.every((other) =>
              other.slice < slice
                ? reach(other) <= slice
                : other.slice > slice
                  ? other.slice >= end
                  : reach(other) <= end,
            ),
        );
        const found = all.filter(({ dashes }) => dashes);
        expect(found.map(({ slice, end }) => [slice, end])).toEqual(
          expected.map(({ slice, end }) => [slice, end]),
        );
        dashed += found.length;
      }),
      { numRuns: 400 },
    );
    expect(dashed).toBeGreaterThan(1);
  });

  it('say the same to the other hand on the mirrored keys', () => {
    fc.assert(
      fc.property(steps(24), fc.constantFrom(...DENSITIES), (all, density) => {
        const layers: readonly Layer[] = ['depth', 'crossing', 'contour', 'roll'];
        const right = cues(lineOf('right', all), { density, layers });
        expect(texts(cues(lineOf('left', mirrored(all)), { density, layers }))).toEqual(texts(right));
      }),
    );
    const left = cues(melody('left', G_MAJOR.map(mirrorKey), '12312345'), {
      layers: ['carry'],
      density: 'every',
    });
    expect(left.map((cue) => cue.text)).toContain('then left');
  });

  it('come at most once a slice, in order, of the chosen layers only, with at most two parts', () => {
    fc.assert(
      fc.property(
        steps(24),
        fc.subarray([...LAYERS], { minLength: 1 }),
        fc.constantFrom(...DENSITIES),
        (all, layers, density) => {
          const found = cues(lineOf('right', all), { layers, density });
          const slices = found.map((cue) => cue.slice);
          expect(slices).toEqual([...new Set(slices)].sort((a, b) => a - b));
          for (const cue of found) {
            expect(cue.keys.length).toBeGreaterThan(0);
            expect(cue.keys.length).toBeLessThanOrEqual(2);
            const words = cue.text.split(', ');
            expect(words).toHaveLength(cue.keys.length);
            for (const [nth, key] of cue.keys.entries()) {
              expect([cueWording('en')[key], LANGUAGES.en.full[key]]).toContain(words[nth]);
            }
            for (const key of cue.keys) expect(layers).toContain(CUE_LAYERS[key]);
          }
        },
      ),
    );
  });

  it('never say one move twice: a crossing leaves out the wrist and the turn that come with it', () => {
    fc.assert(
      fc.property(steps(24), (all) => {
        for (const { keys } of cues(lineOf('right', all), { layers: LAYERS, density: 'every' })) {
          if (!keys.some((key) => CUE_LAYERS[key] === 'crossing')) continue;
          for (const key of keys) expect(['crossing', 'depth', 'carry', 'roll']).toContain(CUE_LAYERS[key]);
        }
      }),
    );
  });

  it('use depth and crossing where no layer is asked for, and essential where no density is', () => {
    const given = melody('right', G_MAJOR, '12312345');
    expect(cues(given)).toEqual(cues(given, { layers: ['depth', 'crossing'], density: 'essential' }));
  });

  it('take hand crossings from the context', () => {
    const given = melody('left', [60, 60], '22');
    const over = {
      kind: 'hand-over',
      from: 2,
      to: 2,
      direction: 'up',
      fromBlack: false,
      toBlack: false,
    } as const;
    const handCrossings = [undefined, { ...over, difficulty: 9 }];
    expect(texts(cues(given, { handCrossings }))).toEqual(['1: hand over']);
    expect(texts(cues(given, { handCrossings, language: 'de' }))).toEqual(['1: übergreifen']);
  });

  it('are fuller once a page or after a long gap, and never in words that the user has replaced', () => {
    const all = Array.from({ length: 400 }, (_, at) => G_MAJOR[at % 7]!);
    const given = melody('right', all, '1231234'.repeat(58).slice(0, 400), 0.4);
    const own = { layers: ['depth'], density: 'every' } as const;
    const full = cues(given, own).filter(({ text }) => text.startsWith('forearm'));
    const measures = full.map(({ slice }) => Math.floor(slice / 8));
    console.log(`forearm ... in measures ${measures.join(', ')} of 50`);
    expect(measures.length).toBeGreaterThanOrEqual(4);
    expect(measures.length).toBeLessThanOrEqual(8);
    const worded = cues(given, { ...own, wording: { in: 'closer' } });
    expect(worded.some(({ text }) => text === 'closer')).toBe(true);
    expect(worded.some(({ text }) => text === 'forearm in')).toBe(false);
  });
});

describe('crossings', () => {
  const octaves = [0, 12, 24].flatMap((octave) => G_MAJOR.slice(0, 7).map((key) => key - 12 + octave));
  const digits = '1231234'.repeat(3);
  const crossed = (seconds: number, density: Density) =>
    cues(melody('right', octaves, digits, seconds), { density, layers: ['crossing'] }).map(
      ({ slice }) => slice,
    );

  it('of one scale are told of evenly: each, at any pace', () => {
    const all = [3, 7, 10, 14, 17];
    expect(crossed(0.25, 'essential')).toEqual(all);
    expect(crossed(0.1, 'essential')).toEqual(all);
    expect(crossed(0.1, 'every')).toEqual(all);
    expect(crossed(0.25, 'demanding')).toEqual([]);
  });

  it('to a black key are demanding', () => {
    const shut = melody('right', [60, 62, 64, 66], '1231', 0.5);
    expect(cues(shut, { density: 'demanding', layers: ['crossing'] }).map(({ slice }) => slice)).toEqual([3]);
  });
});

describe('carry', () => {
  it('is said where the arm sets out, before the target of the leap', () => {
    const leap = melody('right', [60, 64, 84, 86], '1313', 0.5);
    const found = cues(leap, { layers: ['carry'], density: 'every' });
    expect(texts(found)).toEqual(['0: then right']);
  });
});

describe('contour', () => {
  it('is said in groups of three between thumbs', () => {
    const found = cues(melody('right', [60, 62, 64, 65, 67], '12312', 0.25), { layers: ['contour'] });
    expect(texts(found)).toEqual(['1: wrist rises', '3: wrist level']);
  });
});

describe('roll', () => {
  const roll = (keys: readonly number[], fingers: string, seconds = 0.2) =>
    texts(cues(melody('right', keys, fingers, seconds), { layers: ['roll'], density: 'every' }));

  it.each([
    ['an Alberti bass', [60, 67, 64, 67, 60, 67, 64, 67], '15351535'],
    ['broken octaves', [60, 72, 62, 74, 64, 76], '151515'],
    ['a trill', [66, 67, 66, 67, 66, 67], '232323'],
    ['a tremolo', [60, 69, 60, 69, 60, 69], '151515'],
  ] as const)('is one rotation in %s', (_, keys, fingers) => {
    expect(roll(keys, fingers)).toEqual(['0: rotate']);
  });

  it('changes sides in a scale, and has nothing to say to a finger that repeats its key', () => {
    expect(roll([60, 62, 64, 65, 67, 69, 71, 72], '12312345')).toEqual([
      '1: away from the thumb',
      '3: to the thumb',
      '4: away from it',
    ]);
    expect(roll([60, 60, 60, 60, 60, 60], '333333')).toEqual([]);
  });
});
