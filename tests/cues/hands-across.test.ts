import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';

const FILE = fileURLToPath(new URL('../../fixtures/page/hands-across.musicxml', import.meta.url));

it('hand over hand is said to each hand in its own staff: the left over in measure 1, the right in measure 3', () => {
  const { report, output } = annotate(readFileSync(FILE, 'utf8'), { layers: ['crossing'] });
  const said = report.lines.flatMap(({ hand, slices }) =>
    slices.flatMap(({ cue, measure }) =>
      cue?.includes('hand ') ? [`${hand} ${JSON.stringify(measure)}: ${cue}`] : [],
    ),
  );
  expect(said.sort()).toEqual([
    'left "1": hand over',
    'left "3": hand under',
    'right "1": hand under',
    'right "3": hand over',
  ]);
  const staves = [
    ...output.matchAll(/<words[^>]*>(hand(?: |\s*&#10;)(?:over|under))\s*<\/words>[\s\S]*?<staff>(\d)</g),
  ];
  expect(staves.map(([, text, staff]) => `${text!.replace(/\s*&#10;/, ' ')} ${staff}`)).toEqual([
    'hand under 1',
    'hand over 2',
    'hand over 1',
    'hand under 2',
  ]);
});
