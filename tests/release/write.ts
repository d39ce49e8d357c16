// Writes what is generated and reviewed as a change: the schemas and the report on the exported declarations.
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { apiReport, ROOT, SCHEMAS, schemaOf } from './tools.js';

for (const schema of SCHEMAS) {
  mkdirSync(dirname(`${ROOT}${schema.path}`), { recursive: true });
  writeFileSync(`${ROOT}${schema.path}`, schemaOf(schema));
}
const { status, said } = apiReport(true);
process.stdout.write(said);
process.exitCode = status ?? 1;
