// Bundles dist/index.js into dist/node.mjs, which Node.js loads instead: to find and read some 350 modules takes it longer
// than to mark a short score. What others bundle themselves stays in modules, of which they take those that they need.
// CommonJS gets a bundle of its own, and the declarations with its ending, for tools that cannot require ES modules.
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));
const common = {
  absWorkingDir: here,
  entryPoints: ['dist/index.js'],
  bundle: true,
  platform: 'node',
  target: 'node20',
  packages: 'external',
  logLevel: 'warning',
};
await build({ ...common, outfile: 'dist/node.mjs', format: 'esm', sourcemap: true });
await build({ ...common, outfile: 'dist/node.cjs', format: 'cjs' });

const written = new Set();

/** Copies declarations as those of CommonJS, with all that they name. */
function copyDeclarations(file) {
  if (written.has(file)) return;
  written.add(file);
  const text = readFileSync(file, 'utf8').replace(/^\/\/# sourceMappingURL=.*\n?/m, '');
  const own = text.replaceAll(/(?<=(?:from |import\()['"]\.[^'"]*)\.js(?=['"])/g, '.cjs');
  writeFileSync(file.replace(/\.d\.ts$/, '.d.cts'), own);
  for (const [, path] of text.matchAll(/(?:from |import\()['"](\.[^'"]*)\.js['"]/g))
    copyDeclarations(join(dirname(file), `${path}.d.ts`));
}
copyDeclarations(join(here, 'dist/index.d.ts'));
