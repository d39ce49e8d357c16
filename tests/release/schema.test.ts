import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type AnnotateOptions, annotate, HandlineError, REPORT_VERSION } from '@handline/core';
import { Ajv } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, expect, it } from 'vitest';
import { handline } from '../cli/harness.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { readText, SCHEMAS } from './tools.js';

/** The committed schema, by which properties that it does not name are wrong. */
function strict(path: string) {
  const schema = JSON.parse(readText(path), (_, value: unknown) =>
    typeof value === 'object' && value !== null && 'properties' in value
      ? { ...value, additionalProperties: false }
      : value,
  );
  const validate = new Ajv({ allErrors: true, allowUnionTypes: true }).compile(schema);
  return (value: unknown) => {
    validate(value);
    return (validate.errors ?? []).map(({ instancePath, message, params }) =>
      [instancePath, message, JSON.stringify(params)].join(' '),
    );
  };
}

const [report, run] = SCHEMAS.map(({ path }) => strict(path));

const EVERYTHING: AnnotateOptions = {
  nextBest: true,
  alternatives: 2,
  shareHands: true,
  span: '7th',
  language: 'fr',
  layers: ['depth', 'crossing', 'carry', 'contour', 'roll'],
  existing: 'ignore',
};

it('the report on every score has the form of the schema, with the defaults and with all that can be asked for', () => {
  let read = 0;
  const seen = new Set<string>();
  for (const path of [...TUNES.map((name) => `${FIXTURES}${name}`), ...editions(1)]) {
    for (const options of [{}, EVERYTHING]) {
      try {
        const own = JSON.parse(JSON.stringify(annotate(readFileSync(path), options).report));
        expect({ path, errors: report!(own) }).toEqual({ path, errors: [] });
        expect(own.version).toBe(REPORT_VERSION);
        for (const line of own.lines) {
          for (const name of [...Object.keys(line), ...line.slices.flatMap(Object.keys)]) seen.add(name);
          for (const name of ['findings', 'unreachable', 'shared'])
            if (line[name]?.length > 0) seen.add(`some ${name}`);
        }
        read++;
      } catch (error) {
        if (!(error instanceof HandlineError)) throw error;
      }
    }
  }
  console.log(`${read} reports`);
  expect(read).toBeGreaterThan(30);
  for (const name of ['grace', 'nextBest', 'alternates', 'crossing', 'cue', 'shared', 'some unreachable'])
    expect([...seen]).toContain(name);
});

it('every schema has a name of its own, by which a validator finds it', () => {
  const paths = ['packages/core/schema/review-1.json', 'packages/cli/handline.config.schema.json'];
  const ajv = new Ajv2020({ strict: false });
  const ids = [...SCHEMAS.map(({ path }) => path), ...paths].map((path) => {
    const { $schema: _, ...schema } = JSON.parse(readText(path));
    ajv.addSchema(schema);
    return schema.$id;
  });
  expect(new Set(ids).size).toBe(4);
  expect(ids[0]).toBe(`urn:handline:schema:Report:${REPORT_VERSION}`);
  const own = JSON.parse(JSON.stringify(annotate('<score-partwise/>').report));
  expect(ajv.validate(ids[0], own)).toBe(true);
  expect(ajv.validate(ids[0], { ...own, version: 1 })).toBe(false);
});

it('the schema finds what does not have its form', () => {
  const own = JSON.parse(
    JSON.stringify(annotate(readFileSync(`${FIXTURES}demo/kelp-street-tunes.musicxml`)).report),
  );
  const { version, ...unversioned } = own;
  expect(report!(unversioned)).not.toEqual([]);
  own.lines[0].slices[0].notes[0].finger = 6;
  expect(report!(own)).not.toEqual([]);
});

const folder = mkdtempSync(join(tmpdir(), 'handline-schema-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('--json has the form of its schema, whatever became of the files, and holds the same reports', async () => {
  const demo = `${FIXTURES}demo/kelp-street-tunes.musicxml`;
  const inputs = [demo, `${FIXTURES}README.md`, join(folder, 'missing.xml')];
  const mark = await handline(['mark', ...inputs, '--out-dir', 'out', '--json'], folder);
  const marked = JSON.parse(mark.stdout.toString());
  expect(run!(marked)).toEqual([]);
  expect(marked.files.map(({ status }: { status: string }) => status)).toEqual([
    'written',
    'refused',
    'refused',
  ]);
  const { input, output, status, changed, ...own } = marked.files[0];
  expect(own).toEqual(
    JSON.parse(JSON.stringify(annotate(readFileSync(demo), { file: demo, nextBest: true }).report)),
  );
  const clear = await handline(
    ['clear', 'out/kelp-street-tunes.musicxml', '-o', 'cleared.xml', '--json'],
    folder,
  );
  const cleared = JSON.parse(clear.stdout.toString());
  expect(run!(cleared)).toEqual([]);
  expect(cleared.version).toBe(REPORT_VERSION);
});
