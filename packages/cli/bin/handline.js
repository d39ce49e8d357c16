#!/usr/bin/env node
// The command as it is installed. It is there before the build, so that npm can link it; in a fresh checkout it builds
// first.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const main = new URL('../dist/command/main.js', import.meta.url);
const project = fileURLToPath(new URL('../tsconfig.json', import.meta.url));

if (!existsSync(main) && existsSync(project)) {
  process.stderr.write('handline: building it, which is necessary once\n');
  const compiler = createRequire(import.meta.url)
    .resolve('typescript/package.json')
    .replace(/package\.json$/, 'bin/tsc');
  const { status } = spawnSync(process.execPath, [compiler, '--build', project], { stdio: ['ignore', 2, 2] });
  if (status !== 0) process.exit(4);
  await import('../../core/build-bundle.mjs');
  await import('../build-command.mjs');
  await import('../build-stand.mjs');
}
await import(main.href);
