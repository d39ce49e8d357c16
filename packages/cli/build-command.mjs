// Bundles the command with what it is built on into dist/command, which is what is installed: to find and read some 300
// modules of a dozen packages takes Node.js a third of the time of its start. Verovio and tinypool bring files of
// their own and stay apart.
import { rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { licencesOf, listed, packagesIn } from './licences.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));
const TO = join(HERE, 'dist/command');

rmSync(TO, { recursive: true, force: true });
const { metafile } = await build({
  absWorkingDir: HERE,
  entryPoints: ['dist/main.js', 'dist/jobs/worker.js'],
  outdir: TO,
  entryNames: '[name]',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  external: ['verovio', 'tinypool'],
  // Packages in CommonJS ask for modules of Node's.
  banner: {
    js: "import { createRequire as requirer } from 'node:module'; const require = requirer(import.meta.url);",
  },
  metafile: true,
  logLevel: 'warning',
});
const licences = licencesOf(packagesIn(metafile));
writeFileSync(join(TO, 'licences.txt'), `${listed(licences.map(({ stated }) => stated))}\n`);
