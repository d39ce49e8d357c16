import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { REPORT_VERSION } from '@handline/core';
import { createGenerator } from 'ts-json-schema-generator';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** What the packages promise of their JSON, each by the type that it is generated from. */
export const SCHEMAS = [
  {
    path: 'packages/core/schema/report.schema.json',
    room: 'core',
    file: 'options/report.ts',
    type: 'Report',
  },
  { path: 'packages/cli/schema/run.schema.json', room: 'cli', file: 'output/json.ts', type: 'RunReport' },
] as const;

/** The schema of a type, as it is committed. A minor version may add properties, so others than these are allowed. */
export function schemaOf({ room, file, type }: (typeof SCHEMAS)[number]): string {
  const schema = createGenerator({
    path: `${ROOT}packages/${room}/src/${file}`,
    tsconfig: `${ROOT}packages/${room}/tsconfig.json`,
    type,
    additionalProperties: true,
    skipTypeCheck: true,
  }).createSchema(type);
  // A name, not an address: the project has none yet.
  const { $schema, $ref, definitions } = schema;
  const $id = `urn:handline:schema:${type}:${REPORT_VERSION}`;
  // What stands beside a `$ref` does not count in this draft.
  return `${JSON.stringify({ $schema, $id, allOf: [{ $ref }], definitions }, null, 2)}\n`;
}

export interface Ran {
  readonly status: number | null;
  readonly said: string;
}

/** Runs a tool that npm has installed. */
export function tool(name: string, args: readonly string[], cwd = `${ROOT}tests/release`): Ran {
  const path = [`${ROOT}tests/release/node_modules/.bin`, `${ROOT}node_modules/.bin`, process.env.PATH].join(
    ':',
  );
  const { status, stdout, stderr } = spawnSync(name, args, {
    cwd,
    encoding: 'utf8',
    // CI's own variables must not change what a tool says.
    env: { ...process.env, PATH: path, NO_COLOR: '1', FORCE_COLOR: '0' },
  });
  return { status, said: `${stdout}${stderr}` };
}

/** Compares the exported declarations with the committed report on them, or writes that report. */
export function apiReport(write: boolean): Ran {
  return tool('api-extractor', [
    'run',
    ...(write ? ['--local'] : []),
    '-c',
    `${ROOT}packages/core/api/api-extractor.json`,
  ]);
}

export function readText(path: string): string {
  return readFileSync(`${ROOT}${path}`, 'utf8');
}
