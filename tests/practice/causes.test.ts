import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { fingerLine, handModel } from '#core/index.js';
import { CAUSES } from './causes.js';

const GUIDE = readFileSync(
  new URL('../../packages/core/docs/fingering.md', import.meta.url),
  'utf8',
).replaceAll(/\s+/g, ' ');

it.each(CAUSES)('$name: fingered as the guide says', ({ line, span, digits }) => {
  const { slices } = fingerLine(line, handModel(span)).fingering;
  expect(slices.map(({ struck }) => struck.join('')).join(' ')).toBe(digits);
  expect(GUIDE).toContain(`\`${digits}\``);
});
