import { annotate, clear } from '@handline/core';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { AnnotateOptions } from '#core/options/options.js';
import { type OutsideView, outsideReader } from '../conformance/outside-reader.js';
import { schema } from '../conformance/schema.js';
import { RUNS } from '../rounds.js';
import { scoreModel, withoutNotations } from './generate.js';
import { toXml } from './generate-score.js';

const options: fc.Arbitrary<AnnotateOptions> = fc.record({
  existing: fc.constantFrom('keep', 'ignore', 'replace'),
  legend: fc.boolean(),
  density: fc.constantFrom('every', 'essential', 'demanding'),
  layers: fc.subarray(['depth', 'crossing', 'carry', 'contour', 'roll'] as const),
  language: fc.constantFrom('en', 'de', 'fr', 'es', 'it'),
  hands: fc.constantFrom('both', 'right', 'left'),
});

describe('the whole pipeline on generated scores', () => {
  let view: (text: string) => OutsideView;
  beforeAll(async () => {
    view = await outsideReader();
  });

  it('annotate, annotate with other options, clear: the original bytes', () => {
    let changed = 0;
    fc.assert(
      fc.property(scoreModel, options, options, (model, first, second) => {
        const original = toXml(model);
        const once = annotate(original, first).output;
        const twice = annotate(once, second).output;
        expect(twice).toBe(annotate(original, second).output);
        expect(clear(twice)).toEqual({ output: original, warnings: [] });
        if (once !== original) changed++;
      }),
      RUNS,
    );
    expect(changed).toBeGreaterThan(RUNS.numRuns / 2);
  });

  it('verovio reads the same music and as many more digits and words as reported', () => {
    let digits = 0;
    fc.assert(
      fc.property(withoutNotations('editorial'), options, (model, chosen) => {
        const original = toXml(model);
        const { output, report } = annotate(original, { ...chosen, existing: 'keep' });
        const [before, after] = [view(original), view(output)];
        expect(after.music).toBe(before.music);
        const cues = report.lines.flatMap(({ slices }) => slices.flatMap(({ cue }) => cue ?? []));
        const legend = output.match(/<\?handline legend/g) ?? [];
        expect(legend.length > 0).toBe(chosen.legend && output !== original);
        expect(after.words.length - before.words.length).toBe(cues.length + legend.length);
        const more = after.digits.length - before.digits.length;
        expect(more).toBe(digitsIn(output) - digitsIn(original));
        digits += more;
      }),
      RUNS,
    );
    expect(digits).toBeGreaterThan(RUNS.numRuns);
  });

  it('what was valid stays valid', () => {
    const complaints = schema();
    fc.assert(
      fc.property(scoreModel, options, (model, chosen) => {
        expect(complaints(annotate(toXml(model), chosen).output)).toEqual([]);
      }),
      RUNS,
    );
  });
});

function digitsIn(text: string): number {
  return text.match(/<fingering\b/g)?.length ?? 0;
}
