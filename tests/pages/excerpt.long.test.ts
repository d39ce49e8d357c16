import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { annotate, labelNotes } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { type Engraver, loadEngraver, type System } from '../../packages/cli/src/pages/engraver.js';
import { excerptsOf } from '../../packages/cli/src/pages/score/excerpt.js';
import { partwise } from '../../packages/cli/src/pages/score/partwise.js';
import { editions } from '../scores.js';
import { DEMO } from './made.js';

/** Measures that are drawn, from several places of the score. */
const DRAWN = 4;

describe('measures engraved from an excerpt', () => {
  let engraver: Engraver | undefined;

  it.each([DEMO, ...editions(10)].map((path) => [basename(path), path]))(
    'are those of the whole score: %s',
    { timeout: 120_000 },
    async (_, path) => {
      engraver ??= await loadEngraver();
      const { text: labelled, measures } = labelNotes(annotate(readFileSync(path)).output);
      // An excerpt prints no time signature again, so that none is printed here.
      const text = partwise(labelled).replaceAll(/<time(?=[\s>])/g, '<time print-object="no"');
      const excerpt = excerptsOf(text);
      const end = measures[0]!.length - 1;
      for (const share of [0, 0.37, 0.7]) {
        const first = Math.floor(end * share);
        const range = { first, last: Math.min(end, first + DRAWN - 1) };
        const whole = engraver.systems(text, { range }).map(plain);
        expect(engraver.systems(excerpt(range.first, range.last), { range }).map(plain)).toEqual(whole);
      }
    },
  );
});

/** Without names that are drawn by lot. */
function plain({ svg }: System): string {
  return svg
    .replaceAll(/<symbol[\s\S]*?<\/symbol>/g, '')
    .replaceAll(/ id="[^"]*"| id-\w+/g, '')
    .replaceAll(/\bs\d+\b/g, 'S')
    .replaceAll(/#(E[0-9A-F]{3})-\w+/g, '#$1');
}
