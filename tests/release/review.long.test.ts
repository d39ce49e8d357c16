import { expect, it } from 'vitest';
import { apiReport, readText, SCHEMAS, schemaOf, tool } from './tools.js';

it('the exported declarations are those of the reviewed report (npm run api writes it)', () => {
  expect(apiReport(false)).toMatchObject({ status: 0 });
});

it.each(SCHEMAS)('$path is that of $type (npm run api writes it)', (schema) => {
  expect(readText(schema.path)).toBe(schemaOf(schema));
});

it('every public symbol has its text, and every link its target', () => {
  const { status, said } = tool('typedoc', ['--options', 'typedoc.json', '--emit', 'none']);
  expect({ status, said: said.trim() }).toEqual({ status: 0, said: '' });
});
