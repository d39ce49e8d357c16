import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { type Cue, type CueContext, planCues } from '#core/cues/cues.js';
import { CUE_LAYERS } from '#core/cues/keys.js';
import { cueWording } from '#core/cues/wording.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import { planMotion } from '#core/motion/motion.js';
import type { Density, Layer } from '#core/options/options.js';
import { steps } from '../motion/arbitrary.js';
import { type Given, lineOf, measuresFor, melody, mirrored } from '../motion/lines.js';

const LAYERS: readonly Layer[] = ['depth', 'crossing', 'carry', 'contour', 'roll'];
const DENSITIES: readonly Density[] = ['every', 'essential', 'demanding'];

function cues({ line, fingers }: Given, context: Partial<CueContext> = {}): readonly Cue[] {
  const plan = planMotion(line, fingers, handModel());
  return planCues(line, plan, { measures: measuresFor(line), language: 'en', ...context });
}

const texts = (all: readonly Cue[]) => all.map((cue) => `${cue.slice}: ${cue.text}`);

const G_MAJOR = [55, 57, 59, 60, 62, 64, 66, 67];

describe('cues', () => {
  it('of G major are what a teacher would say: out, thumb passes and in, out, lean, in', () => {
    expect(texts(cues(melody('right', G_MAJOR, '12312345'), { density: 'every' }))).toEqual([
      '1: out',
      '2: out',
      '3: thumb passes, in',
      '4: out',
      '5: lean',
      '6: in',
    ]);
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
    expect(left.map((cue) => cue.text)).toContain('arm left');
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
            expect(cue.text).toBe(cue.keys.map((key) => cueWording('en')[key]).join(', '));
            for (const key of cue.keys) expect(layers).toContain(CUE_LAYERS[key]);
          }
        },
      ),
    );
  });

  it('never say one move twice: a crossing leaves out the lean, the wrist and the turn that come with it', () => {
    fc.assert(
      fc.property(steps(24), (all) => {
        for (const { keys } of cues(lineOf('right', all), { layers: LAYERS, density: 'every' })) {
          if (!keys.some((key) => CUE_LAYERS[key] === 'crossing')) continue;
          for (const key of keys) expect(['crossing', 'depth', 'carry', 'roll']).toContain(CUE_LAYERS[key]);
          expect(keys).not.toContain('lean');
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

  it('come for small moves in one direction once they add up, and for none that the hand takes back', () => {
    const plan = planMotion(melody('right', [60], '1').line, { slices: [] }, handModel());
    const depths = [50, 51, 52, 53, 54, 53, 54, 52, 54];
    const slices = depths.map((depth, at) => ({
      ...plan.slices[0]!,
      depth,
      depthChange: at === 0 ? 0 : depth - depths[at - 1]!,
    }));
    const { line } = melody(
      'right',
      depths.map(() => 60),
      '1'.repeat(depths.length),
    );
    const found = planCues(
      line,
      { ...plan, slices },
      { measures: measuresFor(line), language: 'en', density: 'every' },
    );
    expect(texts(found)).toEqual(['3: in']);
  });
});

describe('density', () => {
  const beatOf = (at: number) => Math.floor(at / 2);
  const measureOf = (at: number) => Math.floor(at / 8);
  const distinct = (all: readonly number[]) => new Set(all).size === all.length;

  it('essential gives at most one text a beat, demanding at most one a measure, each a part of what every gives', () => {
    fc.assert(
      fc.property(steps(40), (all) => {
        const given = lineOf('right', all);
        const [every, essential, demanding] = DENSITIES.map((density) =>
          cues(given, { density, layers: LAYERS }).map((cue) => cue.slice),
        );
        expect(distinct(essential!.map(beatOf))).toBe(true);
        expect(distinct(demanding!.map(measureOf))).toBe(true);
        for (const slice of [...essential!, ...demanding!]) expect(every).toContain(slice);
        expect(demanding!.length).toBeLessThanOrEqual(essential!.length);
      }),
    );
  });

  it('leaves a reader 0.6 s from text to text, so that quick music has fewer words', () => {
    const octaves = [0, 12, 24, 36].flatMap((octave) => G_MAJOR.slice(0, 7).map((key) => key - 12 + octave));
    const keys = [...octaves, 91, ...octaves.toReversed()];
    const digits = `${'1231234'.repeat(4)}5${'4321321'.repeat(4)}`;
    const counts = [0.5, 0.25, 0.1, 0.05].map(
      (seconds) => cues(melody('right', keys, digits, seconds)).length,
    );
    console.log(`texts in ${keys.length} notes as they quicken: ${counts.join(', ')}`);
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
    expect(counts.at(-1)!).toBeLessThanOrEqual(Math.ceil((keys.length * 0.05) / 0.6));
  });
});
